#include "core/yard/play.h"

#include "core/quantity/parse.h"
#include "core/yard/iso_time.h"
#include "core/yard/state.h"

#include <algorithm>
#include <limits>

namespace brimful::yard {

using canon::Json;
using report::Why;

namespace {

constexpr std::string_view kTagOf = "of "; // "of NQ-02": the newest tag of another vessel

std::optional<std::int64_t> waitOf(std::string_view text)
{
    const auto parsed = quantity::parse(text, quantity::Dimension::Duration);
    return parsed ? std::optional<std::int64_t>(static_cast<std::int64_t>(parsed->si * 1000.0)) : std::nullopt;
}

Json exampleOf(const rules::Fact& fact)
{
    if (fact.kind == rules::FactKind::Count) {
        return Json(static_cast<std::int64_t>(std::stoll(fact.example)));
    }
    return Json(fact.example);
}

class Player {
public:
    Player(const Json& scenario, ScriptedClock& clock, Yard& yard)
        : m_scenario(scenario)
        , m_clock(clock)
        , m_yard(yard)
    {
    }

    Outcome<Played> run()
    {
        if (auto done = furnish(); !done) {
            return tl::unexpected(done.error());
        }
        const Json* acts = m_scenario.find("do");
        for (std::size_t i = 0; acts != nullptr && i < acts->items.size(); ++i) {
            m_at = i;
            if (auto done = act(acts->items[i]); !done) {
                return tl::unexpected(done.error());
            }
        }
        if (const Json* expected = m_scenario.find("expect")) {
            for (const Json& one : expected->items) {
                expect(one);
            }
        }
        return std::move(m_out);
    }

private:
    tl::unexpected<report::Refusal> bad(const std::string& key, const std::string& found) const
    {
        return refused(Why::ScenarioBad, "do[" + std::to_string(m_at) + "]." + key, {}, found);
    }

    [[nodiscard]] Signing signing(std::string_view name) const
    {
        const Json* yard = m_scenario.find("yard");
        const Json* people = yard == nullptr ? nullptr : yard->find("people");
        for (std::size_t i = 0; people != nullptr && i < people->items.size(); ++i) {
            if (people->items[i].textOf("name") == name) {
                return {std::string(name), std::string(people->items[i].textOf("pin")), {}};
            }
        }
        return {std::string(name), {}, {}};
    }
    [[nodiscard]] std::optional<Signing> signingIn(const Json& act, std::string_view key) const
    {
        const std::string_view name = act.textOf(key);
        return name.empty() ? std::nullopt : std::optional<Signing>(signing(name));
    }

    // People and instruments, before the first act.
    Outcome<void> furnish()
    {
        const Json* yard = m_scenario.find("yard");
        const Json* people = yard == nullptr ? nullptr : yard->find("people");
        if (people == nullptr || people->items.empty()) {
            return refused(Why::ScenarioBad, "yard.people");
        }
        const Signing first = signing(people->items.front().textOf("name"));
        for (std::size_t i = 0; i < people->items.size(); ++i) {
            const Json& one = people->items[i];
            PersonRequest request{std::string(one.textOf("name")), std::string(one.textOf("pin")), {}, std::nullopt};
            if (const Json* roles = one.find("roles")) {
                for (const Json& role : roles->items) {
                    request.roles.push_back(role.text);
                }
            }
            const auto added = i == 0 ? m_yard.grant(request.name, request.roles, first) : m_yard.addPerson(request, first);
            if (!added) {
                return tl::unexpected(added.error());
            }
        }
        const Json* instruments = yard->find("instruments");
        for (std::size_t i = 0; instruments != nullptr && i < instruments->items.size(); ++i) {
            const Json& one = instruments->items[i];
            InstrumentRequest request;
            request.id = one.textOf("id");
            request.type = one.textOf("type");
            if (const Json* attributes = one.find("attributes")) {
                for (const canon::Member& member : attributes->members) {
                    request.attributes[member.key] = member.value.text;
                }
            }
            const auto until = parseTime(one.textOf("calibrated_until"));
            const auto days = one.integerOf("calibrated_days", 0);
            request.calibrated_until_ms = until.value_or(m_clock.now().wall_ms + days * 86'400'000);
            if (const auto added = m_yard.addInstrument(request, first); !added) {
                return tl::unexpected(added.error());
            }
        }
        return {};
    }

    void note(const std::string& act, const Json& from, const std::string& what, const std::string& outcome)
    {
        m_out.lines.push_back({m_clock.now().wall_ms, act, std::string(from.textOf("vessel")), what, outcome});
    }

    template <class Result>
    Outcome<void> settle(const Json& from, const std::string& what, const Outcome<Result>& result, const std::string& outcome)
    {
        const std::string act(from.textOf("act"));
        const std::string_view refusal = from.textOf("refused");
        const std::string got = result ? outcome : std::string(report::whyWord(result.error().why));
        note(act, from, what, got);
        const std::string wanted = refusal.empty() ? std::string() : std::string(refusal);
        if (result && !wanted.empty()) {
            m_out.unmet.push_back({m_at, std::string(from.textOf("vessel")), "refused " + wanted, outcome});
        } else if (!result && got != wanted) {
            if (wanted.empty()) {
                std::string found = got + " " + result.error().path + " " + result.error().expected + " " + result.error().found;
                for (const rules::Blocker& blocker : result.error().blockers) {
                    if (const auto folded = m_yard.folded(std::string(from.textOf("vessel")))) {
                        const auto shown = report::shown(m_yard.pack(), *folded, blocker);
                        found += " [" + shown.rule + ": " + shown.leaf + " " + shown.status + "]";
                    }
                }
                m_out.unmet.push_back({m_at, std::string(from.textOf("vessel")), act + " " + what, found});
            } else {
                m_out.unmet.push_back({m_at, std::string(from.textOf("vessel")), "refused " + wanted, got});
            }
        }
        return {};
    }
    static std::string wordOf(const Outcome<Receipt>& receipt)
    {
        return !receipt ? std::string() : receipt->failing ? "failing" : receipt->counts ? "done" : "waits-for-second";
    }

    // The pack's examples for every fact, and what the act says instead.
    [[nodiscard]] Json factsOf(const Json& act, const rules::Step& step) const
    {
        const rules::Pack& pack = m_yard.pack();
        Json facts = Json::object();
        if (act.textOf("like") == "example") {
            for (const rules::Index index : step.facts) {
                const rules::Fact& fact = pack.facts[index];
                if (fact.reg == rules::kNone && !fact.example.empty() && !fact.optional) {
                    facts.set(fact.key, exampleOf(fact));
                }
            }
            for (const rules::Index index : step.registers) {
                const rules::Register& table = pack.registers[index];
                Json rows = Json::array();
                for (const std::string& member : table.members) {
                    Json row = Json::object();
                    row.set("name", member);
                    for (const rules::Index column : table.columns) {
                        const rules::Fact& fact = pack.facts[column];
                        if (fact.kind != rules::FactKind::Derived && !fact.optional) {
                            row.set(fact.key, exampleOf(fact));
                        }
                    }
                    rows.items.push_back(std::move(row));
                }
                facts.set(table.key, std::move(rows));
            }
        }
        if (const Json* given = act.find("facts")) {
            for (const canon::Member& member : given->members) {
                facts.set(member.key, member.value);
            }
        }
        return facts;
    }

    // Answers as the record has them: what an honest talk would say.
    [[nodiscard]] Json answersOf(const Json& act, const rules::HoldPoint& hold_point)
    {
        Json answers = Json::object();
        const rules::Pack& pack = m_yard.pack();
        if (act.textOf("like") == "record") {
            const auto folded = m_yard.folded(std::string(act.textOf("vessel")));
            for (const rules::Question& question : hold_point.questions) {
                const rules::Fact& fact = pack.facts[question.fact];
                Json answer = fact.example.empty() ? Json("-") : exampleOf(fact);
                rules::Index target = fact.echo_of;
                for (const rules::Fact& other : pack.facts) {
                    target = other.compares == question.fact ? other.echo_of : target;
                }
                std::int64_t largest = std::numeric_limits<std::int64_t>::min();
                for (std::size_t i = 0; folded && target != rules::kNone && i < folded->shown.size(); ++i) {
                    const evidence::FactShown& shown = folded->shown[i];
                    if (shown.fact != target || (shown.count && *shown.count <= largest)) {
                        continue;
                    }
                    largest = shown.count.value_or(largest);
                    answer = shown.value.is(canon::Type::Object) ? Json(shown.value.textOf("typed")) : shown.value;
                    const auto last = static_cast<std::size_t>(fact.echo_last);
                    if (last > 0 && answer.text.size() > last) {
                        answer.text = answer.text.substr(answer.text.size() - last);
                    }
                }
                answers.set(question.id, std::move(answer));
            }
        }
        if (const Json* given = act.find("answers")) {
            for (const canon::Member& member : given->members) {
                answers.set(member.key, member.value);
            }
        }
        return answers;
    }

    // What the second person gives himself: what the act says, else what the first one gave.
    [[nodiscard]] Json ownAnswerOf(const Json& act, rules::Index step, const Json& values) const
    {
        const auto asked =
            act.textOf("with").empty() || step == rules::kNone ? std::nullopt : evidence::askedOfSecond(m_yard.pack(), step, values);
        const Json* given = act.find("own-answer");
        if (!asked || given != nullptr) {
            return given == nullptr ? Json() : *given;
        }
        return *evidence::valueAt(m_yard.pack(), *asked, values);
    }

    Outcome<std::string> tagText(const Json& act)
    {
        const std::string_view wanted = act.textOf("tag");
        if (wanted.empty() || wanted == "none") {
            return std::string();
        }
        const bool of_another = wanted.starts_with(kTagOf);
        const auto printed = m_printed.find(std::string(of_another ? wanted.substr(kTagOf.size()) : act.textOf("vessel")));
        if (printed == m_printed.end() || printed->second.empty()) {
            return std::string();
        }
        return wanted == "older" && printed->second.size() > 1 ? printed->second[printed->second.size() - 2] : printed->second.back();
    }

    Outcome<void> act(const Json& one)
    {
        if (const Json* expected = one.find("expect")) {
            for (const Json& each : expected->items) {
                expect(each);
            }
            return {};
        }
        if (const std::string_view wait = one.textOf("wait"); !wait.empty()) {
            const auto ms = waitOf(wait);
            if (!ms) {
                return bad("wait", std::string(wait));
            }
            m_clock.wait(*ms);
            return {};
        }
        const std::string kind(one.textOf("act"));
        const std::string vessel(one.textOf("vessel"));
        if (kind == "record") {
            return record(one, vessel);
        }
        if (kind == "release") {
            return release(one, vessel);
        }
        if (kind == "admit") {
            Json request = Json::object();
            for (const char* key : {"number", "vessel", "note"}) {
                if (const Json* value = one.find(key)) {
                    request.set(key, *value);
                }
            }
            return settle(one, std::string(one.textOf("number")), m_yard.admit(request, signing(one.textOf("by"))), "done");
        }
        if (kind == "event") {
            const auto done = m_yard.event(vessel, std::string(one.textOf("event")), std::string(one.textOf("note")), signingIn(one, "by"));
            return settle(one, std::string(one.textOf("event")), done, "done");
        }
        if (kind == "withdraw") {
            const auto done =
                m_yard.withdraw(vessel, std::string(one.textOf("hold_point")), std::string(one.textOf("why")), signingIn(one, "by"));
            return settle(one, std::string(one.textOf("hold_point")), done, "done");
        }
        if (kind == "print-tag") {
            const auto printed = m_yard.printTag(vessel, "100x150", static_cast<int>(one.integerOf("offset")), false);
            if (printed) {
                m_printed[vessel].push_back(printed->text);
            }
            return settle(one, "tag", printed, "done");
        }
        if (kind == "tag-read") {
            const auto text = tagText(one);
            return settle(one, "tag", m_yard.recordTag(*text, "scan", signingIn(one, "by")), "done");
        }
        if (kind == "instrument-check") {
            const CheckRequest request{
                std::string(one.textOf("instrument")), std::string(one.textOf("shown")), std::string(one.textOf("expected")), {}};
            const auto done = m_yard.checkInstrument(request, signing(one.textOf("by")));
            return settle(one, request.instrument, done, wordOf(done));
        }
        if (kind == "clear") {
            const auto done = m_yard.clear(vessel, std::string(one.textOf("stop")), std::string(one.textOf("found")),
                std::string(one.textOf("done")), signing(one.textOf("by")), signingIn(one, "with"));
            return settle(one, std::string(one.textOf("stop")), done, wordOf(done));
        }
        if (kind == "correct") {
            return correct(one, vessel);
        }
        if (kind == "end-role") {
            const auto done = m_yard.endRole(std::string(one.textOf("person")), std::string(one.textOf("role")), signing(one.textOf("by")));
            return settle(one, std::string(one.textOf("person")), done, "done");
        }
        if (kind == "accept-gap") {
            const auto done =
                m_yard.acceptGap(vessel, std::string(one.textOf("why")), signing(one.textOf("by")), signing(one.textOf("with")));
            return settle(one, "gap", done, "done");
        }
        if (kind == "reboot") {
            m_clock.reboot(waitOf(one.textOf("off")).value_or(60'000));
            note(kind, one, {}, "done");
            return {};
        }
        if (kind == "jump-clock") {
            m_clock.jumpWall(waitOf(one.textOf("ahead")).value_or(0) - waitOf(one.textOf("back")).value_or(0));
            note(kind, one, {}, "done");
            return {};
        }
        if (kind == "adopt") {
            AdoptRequest request;
            request.law = one.textOf("law") == "all" ? std::string_view() : one.textOf("law");
            return settle(one, std::string(one.textOf("law")),
                m_yard.adoptPack(request, signing(one.textOf("by")), signing(one.textOf("with"))), "done");
        }
        if (kind == "confirm-clock") {
            return settle(one, {}, m_yard.confirmClock(m_clock.now().wall_ms, signing(one.textOf("by"))), "done");
        }
        return bad("act", kind);
    }

    Outcome<void> record(const Json& one, const std::string& vessel)
    {
        RecordRequest request;
        request.vessel = vessel;
        request.step = one.textOf("step");
        const rules::Index step = m_yard.pack().step(request.step);
        if (step == rules::kNone) {
            return bad("step", request.step);
        }
        request.facts = factsOf(one, m_yard.pack().steps[step]);
        request.instrument = one.textOf("instrument");
        request.cannot = one.textOf("cannot");
        if (!request.cannot.empty()) {
            request.facts = Json::object();
        }
        request.own_answer = ownAnswerOf(one, step, request.facts);
        const auto done = m_yard.record(request, signing(one.textOf("by")), signingIn(one, "with"));
        return settle(one, request.step, done, wordOf(done));
    }

    Outcome<void> release(const Json& one, const std::string& vessel)
    {
        ReleaseRequest request;
        request.vessel = vessel;
        request.hold_point = one.textOf("hold_point");
        const rules::Index hold_point = m_yard.pack().holdPoint(request.hold_point);
        if (hold_point == rules::kNone) {
            return bad("hold_point", request.hold_point);
        }
        request.answers = answersOf(one, m_yard.pack().hold_points[hold_point]);
        request.tag = *tagText(one);
        request.own_answer = ownAnswerOf(one, m_yard.pack().hold_points[hold_point].talk, request.answers);
        const auto done = m_yard.release(request, signing(one.textOf("by")), signingIn(one, "with"));
        return settle(one, request.hold_point, done, wordOf(done));
    }

    Outcome<void> correct(const Json& one, const std::string& vessel)
    {
        const auto folded = m_yard.folded(vessel);
        const rules::Index step = m_yard.pack().step(one.textOf("step"));
        if (!folded || step == rules::kNone || folded->evidence.steps[step].entry == rules::kNoEntry) {
            return bad("step", std::string(one.textOf("step")));
        }
        const Hash entry = folded->lines[folded->evidence.steps[step].entry - 1].hash;
        return settle(
            one, std::string(one.textOf("step")), m_yard.correct(entry, std::string(one.textOf("why")), signing(one.textOf("by"))), "done");
    }

    void expect(const Json& one)
    {
        const std::string vessel(one.textOf("vessel"));
        const std::string hold_point(one.textOf("hold_point"));
        const auto folded = m_yard.folded(vessel);
        if (!folded) {
            m_out.unmet.push_back({m_at, vessel, "a vessel", std::string(report::whyWord(folded.error().why))});
            return;
        }
        const rules::Pack& pack = m_yard.pack();
        const rules::Standing standing = rules::standing(pack, folded->evidence);
        const rules::Index index = pack.holdPoint(hold_point);
        const rules::State state = index == rules::kNone ? standing.state : standing.hold_points[index].state;
        std::vector<rules::Blocker> blockers = standing.blockers;
        if (index != rules::kNone) {
            blockers = rules::judgeHoldPoint(pack, folded->evidence, index, {}, false).blockers;
        }
        std::string all;
        std::vector<report::BlockerShown> shown;
        for (const rules::Blocker& blocker : blockers) {
            shown.push_back(report::shown(pack, *folded, blocker));
            all += " [" + shown.back().rule + ": " + shown.back().leaf + " " + shown.back().status + "]";
        }
        const std::string_view wanted = one.textOf("state");
        if (!wanted.empty() && wanted != report::stateWord(state)) {
            m_out.unmet.push_back({m_at, vessel, hold_point + " " + std::string(wanted), std::string(report::stateWord(state)) + all});
        }
        if (const Json* listed = one.find("blockers")) {
            for (const Json& blocker : listed->items) {
                const bool there = std::ranges::any_of(shown, [&](const report::BlockerShown& each) {
                    return each.rule == blocker.textOf("rule")
                        && (blocker.textOf("status").empty() || each.status == blocker.textOf("status"));
                });
                if (!there) {
                    m_out.unmet.push_back({m_at, vessel,
                        "blocker " + std::string(blocker.textOf("rule")) + " " + std::string(blocker.textOf("status")), all});
                }
            }
        }
    }

    const Json& m_scenario;
    ScriptedClock& m_clock;
    Yard& m_yard;
    Played m_out;
    std::size_t m_at{};
    std::map<std::string, std::vector<std::string>> m_printed;
};

// Everything that the scenario waits, so that it can end at a given moment.
std::int64_t lengthOf(const Json& scenario)
{
    std::int64_t total = 0;
    const Json* acts = scenario.find("do");
    for (std::size_t i = 0; acts != nullptr && i < acts->items.size(); ++i) {
        const Json& one = acts->items[i];
        total += waitOf(one.textOf("wait")).value_or(0);
        total += one.textOf("act") == "reboot" ? waitOf(one.textOf("off")).value_or(60'000) : 0;
    }
    return total;
}

} // namespace

Outcome<Played> play(const Json& scenario, const std::filesystem::path& folder, std::optional<std::int64_t> ends_at)
{
    const Json* yard = scenario.find("yard");
    const Json* people = yard == nullptr ? nullptr : yard->find("people");
    if (people == nullptr || people->items.empty()) {
        return refused(Why::ScenarioBad, "yard.people");
    }
    std::int64_t start = 0;
    if (ends_at) {
        start = *ends_at - lengthOf(scenario);
    } else {
        const auto given = parseTime(scenario.textOf("clock"));
        if (!given) {
            return refused(Why::ScenarioBad, "clock", "2026-06-14T08:00Z", std::string(scenario.textOf("clock")));
        }
        start = *given;
    }
    constexpr std::int64_t kUpFor = 3'600'000; // the scripted machine was up for an hour
    ScriptedClock clock({start, kUpFor, people::randomId<BootId>(), ledger::ClockState::Ok});
    CreateRequest request;
    request.name = yard->textOf("name").empty() ? std::string("Scripted yard") : std::string(yard->textOf("name"));
    request.authoriser = people->items.front().textOf("name");
    request.pin = people->items.front().textOf("pin");
    request.play = true;
    const std::string_view law = yard->textOf("law");
    request.law = law.empty() ? rules::kCarriedPack : law == "all" ? std::string_view() : law;
    if (auto created = Yard::create(folder, request, clock); !created) {
        return tl::unexpected(created.error());
    }
    auto opened = Yard::open(folder, Access::ReadWrite, clock);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    auto played = Player(scenario, clock, *opened).run();
    if (auto kept = opened->checkpoint(); !kept) {
        return tl::unexpected(kept.error());
    }
    return played;
}

Outcome<Played> makeDemo(const std::filesystem::path& folder, const std::optional<std::string>& law)
{
    auto scenario = canon::read(rules::shippedFile("demo/ness-quay.json"), canon::Dialect::Subset);
    if (!scenario) {
        return refused(Why::ScenarioBad, "demo/ness-quay.json:" + std::to_string(scenario.error().line), {}, scenario.error().found);
    }
    if (law) {
        for (canon::Member& member : scenario->members) {
            if (member.key == "yard") {
                member.value.set("law", law->empty() ? "all" : *law);
            }
        }
    }
    const auto clock = systemClock();
    auto played = play(*scenario, folder, clock->now().wall_ms);
    if (!played) {
        return played;
    }
    if (!played->unmet.empty()) {
        const Unmet& first = played->unmet.front();
        return refused(Why::ScenarioBad, "do[" + std::to_string(first.act) + "]", first.vessel + " " + first.expected, first.found);
    }
    auto yard = Yard::open(folder, Access::ReadWrite, *clock);
    if (!yard) {
        return tl::unexpected(yard.error());
    }
    const Json& first = scenario->find("yard")->find("people")->items.front();
    const auto confirmed =
        yard->confirmClock(clock->now().wall_ms, {std::string(first.textOf("name")), std::string(first.textOf("pin")), {}});
    if (!confirmed) {
        return tl::unexpected(confirmed.error());
    }
    if (auto kept = yard->checkpoint(); !kept) {
        return tl::unexpected(kept.error());
    }
    return played;
}

} // namespace brimful::yard
