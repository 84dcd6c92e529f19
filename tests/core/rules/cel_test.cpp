// Conditions as expressions of the Common Expression Language. What each should read like is written here by hand; that software
// of others judges them as the judge does is shown by tests/core/rules/cel.mjs, which the long campaigns run on what is written here.
#include "core/rules/cel.h"

#include "tests/core/rules/packs.h"
#include "tests/core/rules/random_pack.h"
#include "tests/support/suite.h"

#include <QTest>

#include <fstream>

using namespace brimful;
using namespace brimful::rules;
using namespace brimful::test;
using canon::Json;

namespace {

struct Counts { // usable at this moment
    std::int64_t now{};
    template <class Any> bool operator()(const Any& held) const { return held.lack == Lack::None && held.lapses_ms > now; }
};

std::string person(std::uint16_t number) { return "p" + std::to_string(number); }

Json texts(const std::vector<std::string>& all, std::uint64_t bits)
{
    Json out = Json::array();
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (((bits >> i) & 1U) != 0) {
            out.items.emplace_back(all[i]);
        }
    }
    return out;
}

template <class List> std::vector<std::string> idsOf(const List& list)
{
    std::vector<std::string> out;
    for (const auto& one : list) {
        out.push_back(one.id);
    }
    return out;
}

Json factsOf(const Pack& pack, const Evidence& evidence, const Counts& counts)
{
    Json out = Json::object();
    for (std::size_t i = 0; i < pack.facts.size(); ++i) {
        const Held& held = evidence.facts[i];
        if (counts(held)) {
            out.set(pack.facts[i].id,
                object({{"largest", Json(held.count)}, {"smallest", Json(held.least)},
                    {"words", texts(pack.facts[i].options, static_cast<std::uint64_t>(held.count))}}));
        }
    }
    return out;
}

Json actorOf(const Pack& pack, const ActorHeld& held)
{
    Json out = object({{"roles", texts(pack.roles, held.roles)}});
    if (held.person != kNobody) {
        out.set("person", person(held.person));
    }
    return out;
}

// The maps that rules/LANGUAGE.md describes: what is not known is not in them.
Json mapsOf(const Pack& pack, const Evidence& evidence, const Actors& actors)
{
    const Counts counts{evidence.now_ms};
    Json steps = Json::object();
    Json people = Json::object();
    Json roles = Json::object();
    for (std::size_t i = 0; i < pack.steps.size(); ++i) {
        const StepHeld& held = evidence.steps[i];
        if (!counts(held)) {
            continue;
        }
        const std::string& id = pack.steps[i].id;
        Json since = Json::array();
        for (std::size_t e = 0; e < pack.events.size(); ++e) {
            if (((evidence.event_after[e] >> i) & 1U) != 0) {
                since.items.emplace_back(pack.events[e].id);
            }
        }
        Json one = object({{"counts", Json::boolean(true)}, {"knew", texts(idsOf(pack.steps), held.knows)}, {"since", std::move(since)}});
        if (held.passed != Truth::Unknown) {
            one.set("passed", Json::boolean(held.passed == Truth::True));
        }
        steps.set(id, std::move(one));
        for (const auto& [key, who, role] :
            {std::tuple{id, held.person, held.role}, std::tuple{id + ":second", held.second, held.second_role}}) {
            if (who != kNobody) {
                people.set(key, person(who));
            }
            if (role < pack.roles.size()) {
                roles.set(key, pack.roles[role]);
            }
        }
    }
    Json raised = Json::array();
    for (std::size_t i = 0; i < pack.stops.size(); ++i) {
        if (evidence.stops[i].raised != kNoEntry) {
            raised.items.emplace_back(pack.stops[i].id);
        }
    }
    Json given = Json::object();
    for (std::size_t i = 0; i < pack.hold_points.size(); ++i) {
        const ReleaseHeld& held = evidence.releases[i];
        if (held.confirmed != kNoEntry && held.at_giving == Truth::True && !held.withdrawn) {
            given.set(pack.hold_points[i].id, Json::boolean(true));
        }
    }
    Json signers = Json::object();
    if (actors.by) {
        signers.set("by", actorOf(pack, *actors.by));
    }
    if (actors.with) {
        signers.set("with", actorOf(pack, *actors.with));
    }
    Json record = Json::object();
    if (evidence.whole) {
        record.set("whole", Json::boolean(true));
    }
    return object({{"steps", std::move(steps)}, {"facts", factsOf(pack, evidence, counts)}, {"people", std::move(people)},
        {"roles", std::move(roles)}, {"raised", std::move(raised)}, {"given", std::move(given)}, {"actors", std::move(signers)},
        {"record", std::move(record)}});
}

// One line a look: the maps, and of every rule its expression's number and the judge's verdict.
void writeLooks(std::ostream& out, const Pack& pack, Dice& dice, int looks)
{
    std::vector<Index> roots;
    for (const HoldPoint& hold_point : pack.hold_points) {
        for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
            for (const Rule& rule : *list) {
                roots.push_back(rule.condition);
            }
        }
    }
    Json expressions = Json::array();
    for (const Index root : roots) {
        expressions.items.emplace_back(asCel(pack, root));
    }
    out << canon::write(object({{"expressions", std::move(expressions)}}), false) << '\n';
    for (int look = 0; look < looks; ++look) {
        const Evidence evidence = makeEvidence(dice, pack);
        const Actors actors = makeActors(dice);
        Json verdicts = Json::array();
        for (const Index root : roots) {
            const Truth truth = judge(std::span(pack.conditions).subspan(root), evidence, actors).truth;
            verdicts.items.emplace_back(static_cast<std::int64_t>(truth) - 1);
        }
        out << canon::write(object({{"maps", mapsOf(pack, evidence, actors)}, {"verdicts", std::move(verdicts)}}), false) << '\n';
    }
}

} // namespace

class CelTest : public QObject {
    Q_OBJECT
private slots:
    void readsLikeThis_data();
    void readsLikeThis();
    void looksToCompare();
};

void CelTest::readsLikeThis_data()
{
    QTest::addColumn<QString>("written");
    QTest::addColumn<QString>("cel");
    const auto row = [](const char* name, const char* written, const char* cel) {
        QTest::newRow(name) << QString::fromLatin1(written) << QString::fromLatin1(cel);
    };
    row("passed", R"({"op":"passed","step":"look"})", R"(steps["look"].passed)");
    row("failed", R"({"op":"failed","step":"look"})", R"(!steps["look"].passed)");
    row("is", R"({"op":"is","fact":"papers.held","one_of":["propane","air"]})",
        R"(size(facts["papers.held"].words) > 0 && facts["papers.held"].words.all(w, w in ["propane", "air"]))");
    row("at most", R"({"op":"at_most","fact":"look.depth","value":"12 mm"})", R"(facts["look.depth"].largest <= 120000)");
    row("at least", R"({"op":"at_least","fact":"look.depth","value":"12 mm"})", R"(facts["look.depth"].smallest >= 120000)");
    row("between", R"({"op":"between","fact":"look.depth","low":"1 mm","high":"2 mm"})",
        R"(facts["look.depth"].smallest >= 10000 && facts["look.depth"].largest <= 20000)");
    row("different people", R"({"op":"different_people","a":"look","b":"look:second"})", R"(people["look"] != people["look:second"])");
    row("not by", R"({"op":"not_by","signature":"look","actor":"with"})", R"(!("with" in actors) || people["look"] != actors.with.person)");
    row("role of a signature", R"({"op":"role","signature":"look:second","one_of":["tester"]})", R"(roles["look:second"] in ["tester"])");
    row("role of who signs", R"({"op":"role","actor":"by","one_of":["tester"]})",
        R"(!("by" in actors) || actors.by.roles.exists(r, r in ["tester"]))");
    row("after", R"({"op":"after","step":"share","knows":"look"})", R"(steps["look"].counts ? "look" in steps["share"].knew : false)");
    row("not since", R"({"op":"not_since","step":"look","event":"moved"})", R"(record.whole ? !("moved" in steps["look"].since) : false)");
    row("clear", R"({"op":"clear","stop":"high"})", R"(!("high" in raised) && record.whole)");
    row("all", R"({"op":"all","of":[{"op":"passed","step":"look"},{"op":"failed","step":"share"}]})",
        R"((steps["look"].passed) && (!steps["share"].passed))");
    row("any", R"({"op":"any","of":[{"op":"passed","step":"look"},{"op":"failed","step":"share"}]})",
        R"((steps["look"].passed) || (!steps["share"].passed))");
    row("not", R"({"op":"not","of":{"op":"passed","step":"look"}})", R"(!(steps["look"].passed))");
    row("two of three",
        R"({"op":"k_of","k":2,"of":[{"op":"passed","step":"look"},{"op":"passed","step":"share"},{"op":"passed","step":"day"}]})",
        R"(((steps["look"].passed) && ((steps["share"].passed) || (steps["day"].passed))) || ((steps["share"].passed) && (steps["day"].passed)))");
}

void CelTest::readsLikeThis()
{
    QFETCH(QString, written);
    QFETCH(QString, cel);
    PackSource source = packFiles("small");
    std::string& file = source.files.at("hold-points/10-first.json");
    Json first = *canon::read(file, canon::Dialect::Subset);
    Json rule = first.find("at_giving")->items.front();
    rule.set("when", *canon::read(written.toStdString(), canon::Dialect::Subset));
    first.set("at_giving", Json::array({rule}));
    file = canon::write(first, false);
    const Pack pack = loaded(source);
    QCOMPARE(QString::fromStdString(asCel(pack, pack.hold_points[pack.holdPoint("first")].at_giving.front().condition)), cel);
}

// Writes CEL_LOOKS for whoever compares: random rules and the shipped pack's.
void CelTest::looksToCompare()
{
    const QString path = qEnvironmentVariable("CEL_LOOKS");
    if (path.isEmpty()) {
        QSKIP("no CEL_LOOKS named; the long campaigns name one");
    }
    std::ofstream out(path.toStdString());
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        Dice dice(seed);
        writeLooks(out, makePack(dice).pack, dice, 50);
    }
    Dice dice(1);
    writeLooks(out, loaded(shipped("base")), dice, 100);
    QVERIFY(out.good());
}

BRIMFUL_SUITE(CelTest);
#include "cel_test.moc"
