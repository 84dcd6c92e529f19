#include "tests/app/print/sample_audit.h"

#include "tests/app/print/sample_views.h"

#include <stdexcept>

namespace brimful::test {

using namespace report;

namespace {

constexpr std::int64_t kMinute = 60'000;

EvidenceShown readings(rules::Lack lack)
{
    EvidenceShown out;
    out.step = "readings-wet";
    out.person = "Bea";
    out.role = "tester";
    out.instrument = "M-1";
    out.at_ms = kSunday - 34 * kMinute;
    out.age_ms = 34 * kMinute;
    out.lapses_ms = out.at_ms + 30 * kMinute;
    out.lack = lack;
    out.entry = canon::sha256("readings of the wet set");
    return out;
}

EvidenceShown with(EvidenceShown evidence, const std::string& fact, const std::string& value)
{
    evidence.fact = fact;
    evidence.value = value;
    return evidence;
}

TrailLine line(ledger::Kind kind, const std::string& step, const std::string& person, std::int64_t at)
{
    TrailLine out;
    out.kind = kind;
    out.step = step;
    out.person = person;
    out.at.wall_ms = at;
    out.true_ms = at;
    out.hash = canon::sha256(step + person);
    return out;
}

} // namespace

const rules::Pack& basePack()
{
    static const rules::Pack pack = [] {
        for (const rules::PackSource& source : rules::shippedPacks()) {
            if (source.id == "base") {
                auto loaded = rules::load(source, {});
                if (!loaded) {
                    throw std::runtime_error("the base pack does not load");
                }
                return std::move(*loaded);
            }
        }
        throw std::runtime_error("no base pack");
    }();
    return pack;
}

const rules::Pack& namedPack()
{
    static const rules::Pack pack = [] {
        rules::Pack copy = basePack();
        for (auto& [key, english] : copy.strings) {
            english = "[" + key + "]";
        }
        for (rules::Step& step : copy.steps) {
            step.cautions = {"no-flame-over-water"};
        }
        return copy;
    }();
    return pack;
}

text::Reading eastCoast()
{
    text::Reading reading;
    reading.offset_minutes = -240;
    return reading;
}

Audit heldAudit()
{
    const rules::Pack& pack = basePack();
    Audit audit;
    audit.view = wet();
    audit.view.standing.hold_point = pack.holdPoint("first-cut");
    audit.hold_point = "first-cut";
    audit.state = rules::State::Held;
    const EvidenceShown lapsed = readings(rules::Lack::Lapsed);
    EvidenceShown brim;
    brim.step = "brim";
    brim.lack = rules::Lack::Missing;
    audit.requirements = {
        {rules::List::AtGiving, "readings", "no-gas", rules::Truth::Unknown,
            {lapsed, with(lapsed, "low-left.gas", "0 %LEL"), with(lapsed, "low-left.oxygen", "20.9 %")},
            {{"imo-enclosed-spaces", "7.2", rules::Mark::Found}, {"", "", rules::Mark::Proposal}}},
        {rules::List::Require, "brimful", "no-pocket", rules::Truth::Unknown, {brim}, {{"", "", rules::Mark::CommonPractice}}},
        {rules::List::Stop, "no-alarm", "no-gas", rules::Truth::False, {}, {}},
    };
    audit.blockers = {
        {"readings", "passed readings-wet", "lapsed", "readings-wet", "no-gas", lapsed.entry},
        {"brimful", "passed brim", "missing", "brim", "no-pocket", std::nullopt},
        {"no-concern", "clear concern", "wrong-value", "concern", "voice", canon::sha256("somebody spoke up")},
    };
    audit.law = "au";
    audit.packs = pack.hash;
    audit.parts = {{"base", 1, pack.hash}, {"au", 1, canon::sha256("au")}};
    audit.clock = "confirmed";
    audit.verified.entries = 64;
    audit.verified.signatures = 101;
    audit.yard = "Ness Quay";
    audit.asked_ms = kSunday;
    audit.trail = {line(ledger::Kind::VesselAdmitted, "", "Ada", kSunday - 300 * kMinute),
        line(ledger::Kind::Evidence, "readings-wet", "Bea", kSunday - 34 * kMinute)};
    return audit;
}

Audit releasedAudit()
{
    Audit audit = heldAudit();
    audit.view = wetReleased();
    audit.view.standing.hold_point = basePack().holdPoint("first-cut");
    audit.view.demo = true;
    audit.state = rules::State::Released;
    audit.released = true;
    audit.until_ms = kSunday + 240 * kMinute;
    audit.given_by = "Ada";
    audit.given_with = "Tam";
    audit.given_ms = kSunday - kMinute;
    audit.release_entry = canon::sha256("the release");
    audit.blockers.clear();
    EvidenceShown brim = readings(rules::Lack::None);
    brim.step = "brim";
    brim.instrument.clear();
    brim.second = "Tam";
    brim.second_role = "operator";
    brim.lapses_ms = kSunday + 90 * kMinute;
    audit.requirements[1].evidence = {brim, with(brim, "no-such-fact", "as it was typed")};
    for (RequirementShown& one : audit.requirements) {
        one.truth = one.list == rules::List::Stop ? rules::Truth::False : rules::Truth::True;
    }
    return audit;
}

print::TagPage tagPage()
{
    print::TagPage page;
    page.view = wetReleased();
    page.view.standing.hold_point = basePack().holdPoint("first-cut");
    page.serial = 9;
    page.issued_ms = kSunday;
    page.code = "7K4P-9QXR-2";
    page.proof = "9C41..E0";
    page.symbol = "NQ-01 DO NOT CUT HEAT FILL OR MOVE. ONLY THE TABLET RELEASES. PRINTED SUN 14 JUN 12:30 UTC-4 B1 ";
    for (int i = 0; i < 244; ++i) {
        page.symbol.push_back("0123456789ABCDEFGHJKMNPQRSTVWXYZ"[(i * 7 + i / 5) % 32]);
    }
    return page;
}

} // namespace brimful::test
