#include "app/tablet/vessel_page.h"

#include "app/tablet/plate.h"
#include "core/report/drawn.h"

#include <algorithm>

namespace brimful::tablet {

using report::Sight;

namespace {

QString openingWord(report::OpeningState state)
{
    switch (state) {
    case report::OpeningState::Unknown:
        return VesselPage::tr("unknown");
    case report::OpeningState::Open:
        return VesselPage::tr("open");
    case report::OpeningState::Brim:
        return VesselPage::tr("brim");
    case report::OpeningState::Plugged:
        return VesselPage::tr("plugged");
    case report::OpeningState::Stuck:
        return VesselPage::tr("stuck");
    }
    return {};
}

QString openingGlyph(report::OpeningState state)
{
    switch (state) {
    case report::OpeningState::Unknown:
        return QStringLiteral("unknown");
    case report::OpeningState::Open:
    case report::OpeningState::Brim:
        return QStringLiteral("open");
    case report::OpeningState::Plugged:
        return QStringLiteral("plugged");
    case report::OpeningState::Stuck:
        return QStringLiteral("stuck");
    }
    return {};
}

QString waterWord(const report::WaterView& water)
{
    switch (water.state) {
    case report::WaterState::Unknown:
        return VesselPage::tr("unknown");
    case report::WaterState::Empty:
        return VesselPage::tr("none");
    case report::WaterState::Part:
        return VesselPage::tr("part full");
    case report::WaterState::Brim:
        return VesselPage::tr("to brim");
    }
    return {};
}

QString placesWord(const std::vector<report::PlaceView>& places)
{
    using report::PlaceState;
    const auto has = [&](PlaceState state) { return std::ranges::find(places, state, &report::PlaceView::state) != places.end(); };
    if (has(PlaceState::Failing)) {
        return VesselPage::tr("outside");
    }
    if (has(PlaceState::Conflict)) {
        return VesselPage::tr("conflict");
    }
    if (has(PlaceState::Unbelievable)) {
        return VesselPage::tr("meter: no");
    }
    if (has(PlaceState::Missing)) {
        return VesselPage::tr("not read");
    }
    return has(PlaceState::Lapsed) ? VesselPage::tr("lapsed") : VesselPage::tr("count");
}

QString cutWord(report::CutState cut)
{
    switch (cut) {
    case report::CutState::Planned:
        return VesselPage::tr("not yet");
    case report::CutState::Released:
        return VesselPage::tr("released");
    case report::CutState::Made:
        return VesselPage::tr("made");
    }
    return {};
}

} // namespace

void VesselPage::show(std::shared_ptr<const report::VesselView> view, const rules::Pack& pack, const text::Reading& reading)
{
    m_picture.view = std::move(view);
    fillParts(pack, reading);
    fillGates(pack, reading);
    fillHeld(pack, reading);
    fillCard(pack, reading);
    const report::VesselView& v = *m_picture.view;
    const auto open = std::ranges::count_if(v.openings,
        [](const report::OpeningView& o) { return o.state == report::OpeningState::Open || o.state == report::OpeningState::Brim; });
    //: the drawing, read aloud: number, water, how many openings are open of how many, standing
    m_spoken = tr("Drawing of %1: water %2, %3 of %4 openings open. %5 %6")
                   .arg(QString::fromStdString(v.number), waterWord(v.water))
                   .arg(open)
                   .arg(v.openings.size())
                   .arg(text::plateWord(v.word), text::plateLine(v, pack, reading));
    Q_EMIT changed();
}

Row VesselPage::part(const QString& id, const QString& title, const QString& value, bool fallback) const
{
    Row row;
    row.key = id;
    row.title = title;
    row.line = value;
    row.solid = fallback;
    for (const report::PartView& one : m_picture.view->parts) {
        if (QString::fromStdString(one.id) == id) {
            row.solid = one.sight == Sight::Proven;
        }
    }
    return row;
}

void VesselPage::fillParts(const rules::Pack& pack, const text::Reading& reading)
{
    const report::VesselView& v = *m_picture.view;
    std::vector<Row> openings;
    for (const report::OpeningView& opening : v.openings) {
        Row row = part(QStringLiteral("opening:") + QString::fromStdString(opening.name), QString::fromStdString(opening.name),
            openingWord(opening.state), opening.sight == Sight::Proven);
        row.glyph = openingGlyph(opening.state);
        openings.push_back(std::move(row));
    }
    m_openings.set(std::move(openings));

    QString was = tr("unknown");
    if (!v.contents.empty()) {
        const rules::Index substance = pack.fact(report::drawn::kSubstance);
        was = substance == rules::kNone ? QString::fromStdString(v.contents) : text::optionWord(pack, substance, v.contents);
    }
    //: a tilt in degrees on a tab
    const QString tilt = v.pitch_deg ? tr("%1°").arg(*v.pitch_deg, 0, 'f', 1) : tr("unknown");
    m_left.set({part(QStringLiteral("was"), tr("Was"), was.toLower(), v.contents_sight == Sight::Proven),
        part(QStringLiteral("tilt"), tr("Tilt"), tilt, v.tilt_sight == Sight::Proven),
        part(QStringLiteral("water"), tr("Water"), waterWord(v.water), v.water.sight == Sight::Proven),
        part(QStringLiteral("trail"), tr("Trail"), tr("%n entries", nullptr, static_cast<int>(v.entries)), true)});
    const QString tag = v.newest_tag ? text::clockTime(v.newest_tag_ms, reading) : tr("none");
    m_right.set({part(QStringLiteral("tag"), tr("Tag"), tag, v.newest_tag.has_value()),
        part(QStringLiteral("places"), tr("%n places", nullptr, static_cast<int>(v.places.size())), placesWord(v.places), false),
        part(QStringLiteral("cut"), tr("Cut"), cutWord(v.cut), v.cut == report::CutState::Made),
        part(QStringLiteral("figures"), tr("Figures"), tr("what if"), true)});
}

void VesselPage::fillGates(const rules::Pack& pack, const text::Reading&)
{
    std::vector<Row> rows;
    m_gate_names.clear();
    const report::VesselView& v = *m_picture.view;
    for (const report::GateView& gate : v.gates) {
        Row row;
        row.key = QStringLiteral("gate:") + QString::number(gate.hold_point);
        const QString name = text::holdPointName(pack, gate.hold_point);
        //: read aloud: a hold point in the run of pipe
        row.title = tr("Hold point %1, %2").arg(name, gate.passed ? tr("released before") : tr("holds"));
        row.solid = gate.passed;
        m_gate_names.append(name);
        rows.push_back(std::move(row));
    }
    for (std::size_t i = 0; i < v.stages.size(); ++i) {
        Row row;
        row.key = QStringLiteral("reach:") + QString::number(i);
        //: read aloud: a stretch of the run between two hold points
        row.title = tr("Stretch %1").arg(text::ofPack(pack, "stage." + v.stages[i].id));
        rows.push_back(std::move(row));
    }
    m_gates.set(std::move(rows));
}

VesselPage::Target VesselPage::targetOf(const report::VesselView&, const rules::Blocker& blocker)
{
    if (blocker.list == rules::List::Clock) {
        return {Target::What::Clock, rules::kNone};
    }
    if (blocker.list == rules::List::History) {
        return {Target::What::Trail, rules::kNone};
    }
    if (blocker.stop != rules::kNone) {
        return {Target::What::Stop, blocker.stop};
    }
    if (blocker.lifted_by != rules::kNone) {
        return {Target::What::Step, blocker.lifted_by};
    }
    if (blocker.needs_hold_point != rules::kNone) {
        return {Target::What::HoldPoint, blocker.needs_hold_point};
    }
    return {Target::What::HoldPoint, blocker.hold_point};
}

void VesselPage::fillHeld(const rules::Pack& pack, const text::Reading& reading)
{
    std::vector<Row> rows;
    const report::VesselView& v = *m_picture.view;
    for (std::size_t i = 0; i < v.standing.blockers.size(); ++i) {
        const text::Held held = text::heldBy(pack, v, v.standing.blockers[i], reading);
        Row row;
        row.key = QString::number(i);
        row.title = held.reason;
        row.line = held.remedy;
        row.note = held.who;
        row.solid = false;
        rows.push_back(std::move(row));
    }
    m_held.set(std::move(rows));
}

void VesselPage::fillCard(const rules::Pack& pack, const text::Reading& reading)
{
    const report::VesselView& v = *m_picture.view;
    m_glyph = standingGlyph(v.word);
    m_target = {};
    m_reason.clear();
    m_remedy.clear();
    m_who.clear();
    m_button.clear();
    if (v.standing.state == rules::State::Closed) {
        m_reason = tr("Closed out. It is no pressure vessel any more.");
        m_button = tr("Look at the trail");
        m_target = {Target::What::Trail, rules::kNone};
        return;
    }
    const bool running = v.standing.state == rules::State::Released || v.word == report::PlateWord::FireWatch;
    if (running && v.standing.next.empty()) {
        m_reason = text::plateLine(v, pack, reading);
        m_button = tr("Look at the clock");
        m_target = {Target::What::Clock, rules::kNone};
        return;
    }
    if (!v.standing.next.empty()) {
        const rules::Next& next = v.standing.next.front();
        m_button = text::nextThing(pack, next);
        switch (next.what) {
        case rules::Next::What::Step:
            m_target = {Target::What::Step, next.index};
            break;
        case rules::Next::What::Clear:
            m_target = {Target::What::Stop, next.index};
            break;
        case rules::Next::What::Release:
            m_target = {Target::What::HoldPoint, next.index};
            break;
        case rules::Next::What::ConfirmClock:
            m_target = {Target::What::Clock, rules::kNone};
            break;
        case rules::Next::What::AcceptGap:
        case rules::Next::What::JoinFork:
            m_target = {Target::What::Trail, rules::kNone};
            break;
        }
    }
    if (v.standing.blockers.empty()) {
        //: nothing holds any more: two people may now release
        m_reason = v.standing.state == rules::State::Ready ? tr("Nothing holds it but two signatures.") : text::plateLine(v, pack, reading);
        return;
    }
    const auto goes_on = [&](const rules::Blocker& one) {
        const Target target = targetOf(v, one);
        return target.what == m_target.what && target.index == m_target.index;
    };
    auto shown = std::ranges::find_if(v.standing.blockers, goes_on);
    shown = shown == v.standing.blockers.end() ? v.standing.blockers.begin() : shown;
    const text::Held held = text::heldBy(pack, v, *shown, reading);
    //: how many reasons hold the vessel, and the one to go on with
    m_reason = tr("Held by %1: %2").arg(v.standing.blockers.size()).arg(held.reason);
    m_remedy = held.remedy;
    m_who = held.who;
    if (m_target.what == Target::What::Nothing) {
        m_target = targetOf(v, *shown);
        m_button = held.button;
    } else if (goes_on(*shown) && !held.button.isEmpty() && m_target.what != Target::What::Step) {
        m_button = held.button;
    }
}

void VesselPage::showStage(std::size_t stage, const evidence::Folded& folded, const rules::Pack& pack, const text::Reading& reading)
{
    std::vector<Row> rows;
    const report::VesselView& v = *m_picture.view;
    if (stage >= v.stages.size()) {
        return;
    }
    m_stage_name = text::ofPack(pack, "stage." + v.stages[stage].id);
    for (const rules::Index step : v.stages[stage].steps) {
        Row row;
        row.key = QString::number(step);
        row.title = text::stepTitle(pack, step);
        const rules::StepState& state = v.standing.steps[step];
        row.solid = state.passed == rules::Truth::True;
        QStringList values;
        for (const evidence::FactShown& shown : folded.shown) {
            const rules::Fact& fact = pack.facts[shown.fact];
            if (fact.step == step && shown.member.empty() && values.size() < 3 && fact.kind != rules::FactKind::Photo) {
                const QString value = text::recorded(shown.value, fact, pack, reading);
                if (!value.isEmpty()) {
                    values.append(value);
                }
            }
        }
        row.line = row.solid ? values.join(QStringLiteral(", ")) : text::lack(state.lack);
        if (row.line.isEmpty()) {
            row.line = tr("counts");
        }
        row.note = row.solid && state.lapses_ms != rules::kNever ? tr("till %1").arg(text::clockTime(state.lapses_ms, reading)) : QString();
        rows.push_back(std::move(row));
    }
    m_stage.set(std::move(rows));
    Q_EMIT changed();
}

void VesselPage::say(const QString& message)
{
    m_message = message;
    Q_EMIT changed();
}

} // namespace brimful::tablet
