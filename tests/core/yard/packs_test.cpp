// Which rules rule a yard: the law that was chosen, a shop's own, another version; what was adopted decides, from then on.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include "core/canon/hash.h"
#include "core/ledger/ledger.h"
#include "core/rules/law.h"

#include <QTest>

#include <algorithm>
#include <fstream>

using namespace brimful;
using report::Why;

namespace {

constexpr std::int64_t kMinute = 60'000;

yard::AdoptRequest law(const char* id)
{
    yard::AdoptRequest request;
    request.law = id;
    return request;
}

rules::PackSource shop(const char* body, const char* version = "1")
{
    rules::PackSource source;
    source.id = "shop";
    source.files["pack.json"] = std::string("{\"id\":\"shop\",\"version\":") + version + ",\"extends\":\"base\"" + body + "}";
    return source;
}

// The base pack, as a later version, one place of one file changed.
rules::PackSource changedBase(const char* file, const char* old, const char* fresh)
{
    rules::PackSource source = rules::carriedRuling("base")->pack;
    std::string& head = source.files.at("pack.json");
    head.replace(head.find("\"version\": 1"), 12, "\"version\": 2");
    std::string& text = source.files.at(file);
    const auto at = text.find(old);
    if (at == std::string::npos) {
        qFatal("not there: %s", old);
    }
    text.replace(at, std::string(old).size(), fresh);
    return source;
}

std::string distance(const rules::Pack& pack) { return pack.parameter("hot-distance")->typed; }

std::filesystem::path keptFile(const yard::Yard& yard, const ledger::AdoptedPart& part)
{
    const std::string name = canon::toHex(*part.file);
    return yard.folder() / "evidence" / name.substr(0, 2) / (name + ".txt");
}

} // namespace

class PacksTest : public QObject {
    Q_OBJECT

    static yard::Yard open(test::Crew& crew, const char* chosen)
    {
        const auto created =
            yard::Yard::create(crew.yardFolder(), {"Test yard", crew.ada.person, crew.ada.pin, "tablet", true, chosen}, crew.clock);
        if (!created) {
            qFatal("no yard: %s", std::string(report::whyWord(created.error().why)).c_str());
        }
        yard::Yard yard = crew.reopen();
        if (!yard.grant("Ada", {"supervisor", "tester", "watch"}, crew.ada)
            || !yard.addPerson({"Tam", crew.tam.pin, {"operator", "hand"}, std::nullopt}, crew.ada)) {
            qFatal("no crew");
        }
        return yard;
    }

private slots:
    void aYardIsMadeUnderALaw_data()
    {
        QTest::addColumn<QString>("chosen");
        QTest::addColumn<int>("overlays");
        QTest::addColumn<QString>("asked");
        // Clearances as in the overlays: AS 1674.1 and Canada's fire code 15 m, the others 11 m as NFPA 51B.
        for (const char* id : {"us", "uk", "eu"}) {
            QTest::newRow(id) << id << 1 << "11 m";
        }
        QTest::newRow("au") << "au" << 1 << "15 m";
        QTest::newRow("ca") << "ca" << 1 << "15 m";
        QTest::newRow("none: the strictest") << "" << 5 << "15 m";
        QTest::newRow("the pack alone, played") << "base" << 0 << "11 m";
    }
    void aYardIsMadeUnderALaw()
    {
        QFETCH(QString, chosen);
        QFETCH(int, overlays);
        QFETCH(QString, asked);
        test::Crew crew;
        yard::Yard yard = open(crew, chosen.toUtf8().constData());
        QVERIFY(yard.packInForce());
        QCOMPARE(yard.adopted()->law, chosen.toStdString());
        QCOMPARE(yard.adopted()->overlays.size(), static_cast<std::size_t>(overlays));
        QCOMPARE(yard.pack().overlays.size(), static_cast<std::size_t>(overlays));
        QCOMPARE(QString::fromStdString(distance(yard.pack())), asked);
        for (const ledger::AdoptedPart& part : yard.adopted()->overlays) {
            QVERIFY(!part.hash.isZero());
            QVERIFY(std::filesystem::exists(keptFile(yard, part)));
        }
        QVERIFY(yard.verify()->intact());
    }

    void whatIsNoLaw()
    {
        test::Crew crew;
        const auto clock = yard::systemClock();
        const yard::CreateRequest work{"Yard", crew.ada.person, crew.ada.pin, "tablet", false, "base"};
        const auto alone = yard::Yard::create(crew.yardFolder(), work, *clock); // the pack alone is for played yards
        QVERIFY(!alone);
        QCOMPARE(alone.error().why, Why::UnknownPack);
        yard::Yard yard = open(crew, "us");
        const auto unknown = yard.adoptPack(law("xx"), crew.ada, crew.tam);
        QVERIFY(!unknown);
        QCOMPARE(unknown.error().why, Why::UnknownPack);
        QCOMPARE(unknown.error().found, std::string("xx"));
        QCOMPARE(yard.adoptPack(law("au"), crew.ada, crew.ada).error().why, Why::SamePerson);
        QCOMPARE(yard.adoptPack(law("au"), crew.tam, crew.ada).error().why, Why::RoleNotHeld);
        QCOMPARE(yard.adopted()->law, std::string("us"));
    }

    // The law of the day decides: 12 m are enough under one law, not under the next, and still were on the day before.
    void whatWasAdoptedDecidesFromThenOn()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        QVERIFY(yard.admit(
            test::json(
                R"({"number": "NQ-01", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})"),
            crew.tam));
        yard::RecordRequest ready;
        ready.vessel = "NQ-01";
        ready.step = "ready-for-heat";
        ready.facts = test::json(
            R"({"stands": "outdoors", "where": "Door edge", "reach": "outside", "reach-in-terms": "not-needed", "blower": "on", "distance": "12 m",
                "far-side": "looked-at", "bottles": "outside", "meter-heard": "heard", "watcher": "Ada"})");
        ready.own_answer = "12 m";
        const auto recorded = yard.record(ready, crew.tam, crew.ada);
        QVERIFY2(recorded, recorded ? "" : (recorded.error().path + " " + recorded.error().expected).c_str());
        const auto passed = [&](std::optional<std::int64_t> at) {
            return yard.folded("NQ-01", at)->evidence.steps[yard.pack(at).step("ready-for-heat")].passed;
        };
        QCOMPARE(passed(std::nullopt), rules::Truth::True);
        const std::int64_t before = crew.clock.now().wall_ms;
        crew.clock.wait(10 * kMinute);
        QVERIFY(yard.adoptPack(law("au"), crew.ada, crew.tam));
        crew.clock.wait(10 * kMinute);
        QCOMPARE(passed(std::nullopt), rules::Truth::False);
        QCOMPARE(passed(before), rules::Truth::True);
        QCOMPARE(distance(yard.pack(before)), std::string("11 m"));
        QCOMPARE(distance(yard.pack()), std::string("15 m"));

        const auto audit = yard.audit("NQ-01", "hot-work");
        QVERIFY(audit);
        QCOMPARE(audit->law, std::string("au"));
        QCOMPARE(audit->parts.size(), std::size_t(2));
        QCOMPARE(audit->parts[1].id, std::string("au"));
        QCOMPARE(audit->parts[1].version, std::int64_t(1));
        QCOMPARE(audit->ruled.size(), std::size_t(2));
        QCOMPARE(audit->ruled[0].law, std::string("us"));
        QVERIFY(audit->ruled[0].from_ms < audit->ruled[1].from_ms);
        const auto then = yard.audit("NQ-01", "hot-work", before);
        QCOMPARE(then->law, std::string("us"));
        QCOMPARE(then->ruled.size(), std::size_t(1));
        QVERIFY(then->packs != audit->packs);
        // Each entry names the packs that it was written under.
        QCOMPARE(yard.trail("NQ-01")->size() > 0, true);
        QVERIFY(crew.reopen(yard::Access::ReadOnly).packInForce());
    }

    void aShopsOwnRules()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        yard::AdoptRequest request = law("us");
        request.shop = shop(
            R"(,"life":{"place":"1 h"},"parameters":{"reading-life":{"value":"20 min","source":[{"place":"agreed in the shop","mark":"proposal"}]}})");
        const auto adopted = yard.adoptPack(request, crew.ada, crew.tam);
        QVERIFY2(adopted, adopted ? "" : (adopted.error().path + " " + adopted.error().found).c_str());
        QCOMPARE(yard.pack().parameter("reading-life")->set_by, std::string("shop"));
        const auto beyond = rules::tightenings(yard.pack());
        QVERIFY(std::ranges::any_of(beyond, [](const rules::Tightening& one) { return one.id == "place" && one.to_ms == 60 * kMinute; }));
        // The law changes, the shop's rules stay.
        QVERIFY(yard.adoptPack(law("au"), crew.ada, crew.tam));
        QCOMPARE(yard.pack().overlays.back().id, std::string("shop"));
        QCOMPARE(distance(yard.pack()), std::string("15 m"));
        // Looser rules of the same name are refused, with an example.
        yard::AdoptRequest looser = law("au");
        looser.shop = shop(R"(,"life":{"place":"1 h"})", "2");
        const auto refused = yard.adoptPack(looser, crew.ada, crew.tam);
        QVERIFY(!refused);
        QCOMPARE(refused.error().why, Why::GrantsMore);
        QCOMPARE(refused.error().path, std::string("shop"));
        QVERIFY(refused.error().example.find("do") != nullptr);
        // What loosens the pack itself does not even load, and a name of the program's own is not the shop's.
        yard::AdoptRequest loose = law("au");
        loose.shop = shop(R"(,"parameters":{"reading-life":{"value":"40 min","source":[{"mark":"proposal"}]}})");
        QCOMPARE(yard.adoptPack(loose, crew.ada, crew.tam).error().why, Why::PackBroken);
        loose.shop = shop("");
        loose.shop->files["pack.json"] = R"({"id":"us","version":1,"extends":"base"})";
        QCOMPARE(yard.adoptPack(loose, crew.ada, crew.tam).error().why, Why::PackTaken);
        // Two people may end them by name.
        yard::AdoptRequest without = law("au");
        without.without_shop = true;
        QVERIFY(yard.adoptPack(without, crew.ada, crew.tam));
        QCOMPARE(yard.pack().overlays.size(), std::size_t(1));
    }

    // Rules kept with the record are the ones that were signed, or everything is held.
    void keptRulesThatWereEdited()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        yard::AdoptRequest request = law("us");
        request.shop = shop(R"(,"life":{"place":"1 h"})");
        QVERIFY(yard.adoptPack(request, crew.ada, crew.tam));
        const auto file = keptFile(yard, yard.adopted()->overlays.back());
        std::string text;
        {
            std::ifstream in(file, std::ios::binary);
            text.assign(std::istreambuf_iterator<char>(in), {});
        }
        const auto at = text.find("1 h");
        QVERIFY(at != std::string::npos);
        text.replace(at, 3, "4 h");
        std::ofstream(file, std::ios::binary) << text;
        yard::Yard again = crew.reopen();
        QVERIFY(!again.packInForce());
        QVERIFY(!again.verify()->intact());
        QVERIFY(again.admit(
            test::json(
                R"({"number": "NQ-01", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})"),
            crew.tam));
        QVERIFY(!again.folded("NQ-01")->evidence.whole);
        std::filesystem::remove(file);
        QVERIFY(!crew.reopen().packInForce());
    }

    // A later version of the pack: kept with the record, so that it rules even where the program carries another.
    void aStricterVersionIsAdopted()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        yard::AdoptRequest request = law("us");
        request.pack = changedBase("pack.json", R"("value": "30 min")", R"("value": "25 min")"); // the first: how long readings count
        const auto adopted = yard.adoptPack(request, crew.ada, crew.tam);
        QVERIFY2(adopted, adopted ? "" : (adopted.error().path + " " + adopted.error().found).c_str());
        const auto again = crew.reopen(yard::Access::ReadOnly);
        QVERIFY(again.packInForce());
        QCOMPARE(again.pack().version, std::int64_t(2));
        QCOMPARE(again.pack().parameter("reading-life")->typed, std::string("25 min"));
        // Back to the looser one that the program carries: refused.
        const auto back = yard.adoptPack(law("us"), crew.ada, crew.tam);
        QVERIFY(!back);
        QCOMPARE(back.error().why, Why::GrantsMore);
        QCOMPARE(back.error().path, std::string("base"));
    }

    // Weaker rules whose claims were weakened with them: the comparison names them all the same.
    void aWeakerVersionIsRefused()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        yard::AdoptRequest request = law("us");
        request.pack = changedBase("pack.json", R"("value": "30 min")", R"("value": "2 h")");
        const auto claimed = yard.adoptPack(request, crew.ada, crew.tam);
        QVERIFY(!claimed);
        QCOMPARE(claimed.error().why, Why::PackUnproven);
        std::erase_if(request.pack->files, [](const auto& file) { return file.first.starts_with("claims/"); });
        const auto refused = yard.adoptPack(request, crew.ada, crew.tam);
        QVERIFY(!refused);
        QCOMPARE(refused.error().why, Why::GrantsMore);
        QCOMPARE(refused.error().found, std::string("first-cut"));
        QVERIFY(refused.error().example.find("do") != nullptr);
        request.pack->files.at("pack.json").replace(request.pack->files.at("pack.json").find("\"base\""), 6, "\"mine\"");
        QCOMPARE(yard.adoptPack(request, crew.ada, crew.tam).error().why, Why::UnknownPack);
        QCOMPARE(yard.pack().version, std::int64_t(1));
    }

    // Entries written before yards had overlays name none: they are read, and all of the program's rule.
    void anOldAdoptionIsRead()
    {
        test::Crew crew;
        yard::Yard yard = open(crew, "us");
        auto file = ledger::Ledger::open(crew.yardFolder() / "ledger.db", ledger::Mode::ReadWrite);
        QVERIFY(file);
        const auto signer = [&](const yard::Signing& who) {
            return yard.device()->unlock(yard.state().personNamed(who.person)->id, who.pin, 0);
        };
        const auto write = [&](ledger::Kind kind, canon::Json payload, const yard::Signing& who, const char* role) {
            const auto tip = file->tip(yard.device()->id());
            const auto key = signer(who);
            QVERIFY(tip && key);
            ledger::Entry entry;
            entry.yard = yard.state().yard;
            entry.device = yard.device()->id();
            entry.seq = tip->seq + 1;
            entry.prev = tip->head;
            entry.parents = {*tip->head};
            entry.kind = kind;
            entry.payload = std::move(payload);
            entry.signer = ledger::Signer{yard.state().personNamed(who.person)->id, role};
            entry.at = crew.clock.now();
            ledger::Stored row;
            row.body = ledger::encode(entry);
            row.hash = canon::leafHash(row.body);
            row.device_signature = yard.device()->sign(row.hash);
            row.person_signature = key->sign(people::kPersonDomain, row.hash);
            QVERIFY(file->append(std::span(&row, 1)));
        };
        canon::Json base = canon::Json::object();
        base.set("hash", canon::toHex(rules::manifestHash(rules::carriedRuling("base")->pack))).set("id", "base").set("version", 1);
        canon::Json adopted = canon::Json::object();
        adopted.set("law", "").set("overlays", canon::Json::array()).set("pack", base);
        write(ledger::Kind::PackAdopted, adopted, crew.ada, "authoriser");
        canon::Json confirmed = canon::Json::object();
        confirmed.set("confirms", canon::toHex(*file->tip(yard.device()->id())->head));
        write(ledger::Kind::Confirmed, confirmed, crew.tam, "operator");
        QVERIFY(yard.changedElsewhere());
        QVERIFY(yard.verify()->intact());
        QVERIFY(yard.packInForce());
        QCOMPARE(yard.pack().overlays.size(), std::size_t(5));
        QCOMPARE(distance(yard.pack()), std::string("15 m"));
    }
};

BRIMFUL_SUITE(PacksTest);
#include "packs_test.moc"
