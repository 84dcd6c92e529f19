#include "tests/core/evidence/story.h"

#include "core/quantity/recorded.h"
#include "tests/core/rules/packs.h"

#include <algorithm>
#include <limits>

namespace brimful::test {

using ledger::Kind;

namespace {

template <class Id> Id filled(std::uint8_t byte)
{
    Id id;
    id.value.fill(byte);
    return id;
}

std::string roleOf(Who who)
{
    switch (who) {
    case Who::Hand:
        return "hand";
    case Who::Tester:
        return "tester";
    case Who::Authoriser:
        return "authoriser";
    case Who::Operator:
        return "operator";
    case Who::Second:
        return "authoriser";
    }
    return {};
}

} // namespace

Json measured(const std::string& typed, quantity::Dimension dimension)
{
    const auto recorded = quantity::record(typed, dimension);
    if (!recorded) {
        giveUp(typed);
    }
    Json out = Json::object();
    out.set("count", recorded->count).set("typed", recorded->typed).set("unit", recorded->unit);
    return out;
}

Json length(const std::string& typed) { return measured(typed, quantity::Dimension::Length); }
Json shownGas(const std::string& typed) { return measured(typed, quantity::Dimension::LimitShare); }
Json seconds(std::int64_t count) // negative ones too: entries may say anything
{
    return values({{"count", Json(count)}, {"typed", Json(std::to_string(count) + " s")}, {"unit", Json("s")}});
}

Json values(std::initializer_list<std::pair<const char*, Json>> all)
{
    Json out = Json::object();
    for (const auto& [key, value] : all) {
        out.set(key, value);
    }
    return out;
}

const rules::Pack& Story::pack()
{
    static const rules::Pack small = loaded(packFiles("small"));
    return small;
}

PersonId Story::person(Who who) { return filled<PersonId>(static_cast<std::uint8_t>(who)); }

Story::Story()
    : vessel(filled<VesselId>(9))
{
    m_now = {kStart, kHour, filled<BootId>(1), ledger::ClockState::Confirmed};
    yard.yard = filled<YardId>(7);
    yard.boots[m_now.boot] = {m_now.wall_ms, m_now.boot_ms};
    for (const Who who : {Who::Hand, Who::Tester, Who::Authoriser, Who::Operator, Who::Second}) {
        ledger::Person one;
        one.id = person(who);
        one.name = roleOf(who);
        one.keys.push_back({filled<DeviceId>(1), {}, {}, std::nullopt});
        one.keys.push_back({filled<DeviceId>(2), {}, {}, std::nullopt});
        ledger::Role role;
        role.role = roleOf(who);
        role.from_ms = 0;
        role.until_ms = std::numeric_limits<std::int64_t>::max();
        one.roles.push_back(role);
        yard.people.emplace(one.id, one);
    }
    ledger::Instrument meter;
    meter.type = "gas-meter";
    meter.id = "M-1";
    meter.calibrated_until_ms = kStart + 100 * 24 * kHour;
    yard.instruments.emplace("M-1", meter);
    bump(true);
}

void Story::reboot(bool confirm)
{
    m_now.boot = filled<BootId>(static_cast<std::uint8_t>(m_now.boot.value[0] + 1));
    m_now.boot_ms = 0;
    wait(kMinute);
    if (confirm) {
        yard.boots[m_now.boot] = {m_now.wall_ms, m_now.boot_ms};
    }
}

std::vector<Hash> Story::heads(bool of_yard) const
{
    std::vector<Hash> out;
    const auto ours = [&](const ledger::Line& line) { return of_yard ? !line.entry.vessel : line.entry.vessel == vessel; };
    for (const ledger::Line& line : lines) {
        const bool named = std::ranges::any_of(lines, [&](const ledger::Line& other) {
            return ours(other) && std::ranges::find(other.entry.parents, line.hash) != other.entry.parents.end();
        });
        if (ours(line) && !named) {
            out.push_back(line.hash);
        }
    }
    std::ranges::sort(out);
    return out;
}

Hash Story::add(Kind kind, Json payload, const How& how)
{
    ledger::Entry entry;
    entry.yard = yard.yard;
    entry.device = filled<DeviceId>(how.device);
    auto& [seq, prev] = m_feeds[entry.device];
    entry.seq = ++seq;
    if (seq > 1) {
        entry.prev = prev;
    }
    if (!how.of_yard) {
        entry.vessel = vessel;
    }
    entry.parents = how.parents ? *how.parents : heads(how.of_yard);
    entry.kind = kind;
    entry.payload = std::move(payload);
    if (how.by) {
        entry.signer = ledger::Signer{person(*how.by), how.role.empty() ? roleOf(*how.by) : how.role};
    }
    entry.at = m_now;
    entry.pack = pack().hash;
    entry.attachments = how.files;
    std::ranges::sort(entry.attachments);
    const Hash hash = canon::leafHash(ledger::encode(entry));
    prev = hash;
    lines.push_back({hash, std::move(entry)});
    return hash;
}

Hash Story::record(const std::string& step, Json facts, How how)
{
    Json payload = Json::object();
    payload.set("step", step).set("outcome", how.cannot ? "cannot" : "done").set("facts", std::move(facts));
    if (!how.instrument.empty()) {
        payload.set("instrument", how.instrument);
    }
    if (how.cannot) {
        payload.set("reason", "dark");
    }
    return add(Kind::Evidence, std::move(payload), how);
}

Hash Story::confirm(const Hash& what, Who who, std::string role)
{
    How how;
    how.by = who;
    how.role = std::move(role);
    const auto found = std::ranges::find(lines, what, &ledger::Line::hash);
    how.of_yard = found != lines.end() && !found->entry.vessel;
    return add(Kind::Confirmed, values({{"confirms", Json(canon::toHex(what))}}), how);
}

Hash Story::event(const std::string& event, std::optional<Who> by)
{
    How how;
    how.by = by;
    return add(Kind::Event, values({{"event", Json(event)}}), how);
}

Hash Story::correct(const Hash& what, Who by)
{
    How how;
    how.by = by;
    return add(Kind::Corrected, values({{"withdraws", Json(canon::toHex(what))}, {"why", Json("wrong vessel")}}), how);
}

Hash Story::clear(const std::string& stop, const Hash& raised, Who by, std::optional<Who> with)
{
    How how;
    how.by = by;
    const Hash first = add(Kind::Cleared,
        values({{"raised", Json(canon::toHex(raised))}, {"stop", Json(stop)}, {"found", Json("a leak")}, {"done", Json("mended")}}), how);
    return with ? confirm(first, *with) : first;
}

Hash Story::bump(bool passed)
{
    How how;
    how.by = Who::Tester;
    how.of_yard = true;
    const Hash hash =
        add(Kind::InstrumentChecked, values({{"instrument", Json("M-1")}, {"outcome", Json(passed ? "passed" : "failed")}}), how);
    yard.instruments.at("M-1").bumps.push_back({hash, m_now, passed});
    return hash;
}

Hash Story::printTag() { return add(Kind::TagPrinted, values({{"serial", Json(std::int64_t{1})}, {"state", Json("ready")}}), {}); }

Hash Story::release(const std::string& hold_point, Json answers, const std::optional<Hash>& tag, Who by, Who with)
{
    How how;
    how.by = by;
    Json payload = values({{"hold_point", Json(hold_point)}, {"answers", std::move(answers)}});
    if (tag) {
        payload.set("tag", values({{"serial", Json(std::int64_t{1})}, {"head", Json(canon::toHex(*tag))}, {"how", Json("scan")}}));
    }
    return confirm(add(Kind::Released, std::move(payload), how), with);
}

Hash Story::papers(const std::string& held)
{
    How how;
    how.by = Who::Hand;
    return record("papers", values({{"serial", Json("A 1204")}, {"held", Json(held)}}), how);
}

Hash Story::look(const std::string& depth)
{
    How how;
    how.by = Who::Hand;
    const Hash first = record("look", values({{"depth", length(depth)}}), how);
    confirm(first, Who::Tester);
    return first;
}

Hash Story::openings()
{
    How how;
    how.by = Who::Hand;
    const Json row = values({{"name", Json("N1")}, {"bore", length("25 mm")}, {"state", Json("open")}});
    return record("openings", values({{"table", Json::array({row})}}), how);
}

Hash Story::day()
{
    How how;
    how.by = Who::Authoriser;
    how.of_yard = true;
    return record("day", values({{"wind", Json("calm")}}), how);
}

Hash Story::readings(const std::string& top, const std::string& bottom, std::int64_t oldest_s)
{
    How how;
    how.by = Who::Tester;
    how.instrument = "M-1";
    const Json rows = Json::array({values({{"name", Json("top")}, {"gas", shownGas(top)}, {"age", seconds(oldest_s)}}),
        values({{"name", Json("bottom")}, {"gas", shownGas(bottom)}, {"age", seconds(0)}}),
        values({{"name", Json("N1")}, {"gas", shownGas("0 %LEL")}, {"age", seconds(0)}})});
    return record("readings", values({{"set", rows}}), how);
}

Hash Story::cut()
{
    How how;
    how.by = Who::Operator;
    return record("cut", values({{"done", Json("yes")}}), how);
}

void Story::readyForFirst()
{
    day();
    papers();
    look();
    openings();
    wait(kMinute);
    readings();
    wait(kMinute);
}

Hash Story::giveFirst(const std::string& highest)
{
    const Hash tag = printTag();
    return release("first", values({{"serial", Json("1204")}, {"highest", shownGas(highest)}, {"unhappy", Json("nobody")}}), tag);
}

evidence::Folded Story::fold() { return evidence::fold(lines, vessel, yard, pack(), {}, m_now, around, memo); }
evidence::Folded Story::foldBy(const rules::Pack& other) const
{
    evidence::Memo fresh;
    return evidence::fold(lines, vessel, yard, other, {}, m_now, around, fresh);
}
rules::Standing Story::standing() { return rules::standing(pack(), fold().evidence); }
rules::StepHeld Story::step(const std::string& id) { return fold().evidence.steps.at(pack().step(id)); }
rules::Held Story::fact(const std::string& id) { return fold().evidence.facts.at(pack().fact(id)); }
rules::StopHeld Story::stop(const std::string& id) { return fold().evidence.stops.at(pack().stop(id)); }
rules::ReleaseHeld Story::given(const std::string& hold_point) { return fold().evidence.releases.at(pack().holdPoint(hold_point)); }

std::uint32_t Story::numberOf(const Hash& hash) const
{
    const auto found = std::ranges::find(lines, hash, &ledger::Line::hash);
    return found == lines.end() ? 0 : static_cast<std::uint32_t>(found - lines.begin() + 1);
}

} // namespace brimful::test
