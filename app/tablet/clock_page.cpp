#include "app/tablet/clock_page.h"

#include "app/tablet/plate.h"
#include "core/quantity/recorded.h"
#include "core/report/drawn.h"

#include <algorithm>
#include <utility>

namespace brimful::tablet {

namespace {

constexpr std::string_view kStopAt = "gas-stop";
constexpr std::string_view kLeaveAt = "gas-leave";

QString parameterWord(const rules::Pack& pack, std::string_view id, const text::Reading& reading)
{
    const rules::Parameter* one = pack.parameter(id);
    return one == nullptr ? QString() : text::quantity(quantity::siOf(one->count, one->unit), one->dimension, reading);
}

Row end(const QString& event, const QString& title)
{
    Row row;
    row.key = event;
    row.title = title;
    return row;
}

Row line(const QString& title, const QString& value)
{
    Row row;
    row.key = title;
    row.title = title;
    row.line = value;
    return row;
}

} // namespace

void ClockPage::show(const VesselPicture& picture, const rules::Pack& pack, const text::Reading& reading)
{
    m_picture = picture;
    const report::VesselView& v = *picture.view;
    m_watch = v.word == report::PlateWord::FireWatch;
    m_end_ms = v.standing.state == rules::State::Released ? v.standing.until_ms : v.clock ? v.clock->at_ms : rules::kNever;
    const rules::Index gate = v.standing.hold_point;
    const rules::Parameter* watch = pack.parameter(std::string(report::drawn::kWatchLasts));
    m_length_ms = m_watch && watch != nullptr ? watch->count * 1000 : gate == rules::kNone ? 1 : pack.hold_points[gate].lasts_ms;
    m_length_ms = std::max<std::int64_t>(1, m_length_ms);

    // A log or a sweep comes again while it runs; what is recorded when the work is done comes once.
    m_step = m_watch ? pack.step(report::drawn::kWatch) : v.log;
    m_task = m_step == rules::kNone ? QString() : m_watch ? tr("Sweep") : tr("Log gas");
    const auto next = std::ranges::find(v.standing.next, rules::Next::What::Step, &rules::Next::what);
    m_done_step = m_watch || next == v.standing.next.end() || next->index == m_step ? rules::kNone : next->index;
    m_done = m_done_step == rules::kNone ? QString() : text::stepTitle(pack, m_done_step);
    if (m_step == rules::kNone) {
        m_step = std::exchange(m_done_step, rules::kNone);
        m_task = std::exchange(m_done, QString());
    }
    const bool reads = m_watch || v.log != rules::kNone;
    m_stop_at = reads ? parameterWord(pack, kStopAt, reading) : QString();
    m_leave_at = reads ? parameterWord(pack, kLeaveAt, reading) : QString();

    std::vector<Row> lines;
    if (gate != rules::kNone && !m_watch) {
        lines.push_back(line(tr("Only"), text::ofPack(pack, "hold-point." + pack.hold_points[gate].id + ".behind")));
    }
    if (m_end_ms != rules::kNever) {
        lines.push_back(line(tr("Until"), tr("%1, or one stop sooner").arg(text::clockTime(m_end_ms, reading))));
    }
    std::int64_t most = -1;
    std::size_t places = 0;
    for (const report::PlaceView& place : v.places) {
        if (place.gas) {
            most = std::max(most, *place.gas);
            ++places;
        }
    }
    if (places > 0) {
        //: highest gas reading and how many places were read: "0 %LEL at 5 places"
        lines.push_back(line(tr("Gas"), tr("%1 %LEL at %2 places").arg(static_cast<double>(most) / 10.0, 0, 'g', 3).arg(places)));
    }
    if (v.newest_tag) {
        lines.push_back(line(tr("Tag"), tr("number %1").arg(*v.newest_tag)));
    }
    if (m_silent) {
        lines.push_back(line(tr("Alarm"), tr("seen, not heard: nothing here sounds")));
    }
    m_lines.set(std::move(lines));
    m_ends.set(m_watch ? std::vector<Row>{end(QStringLiteral("person-left"), tr("I must leave")), end(QStringLiteral("moved"), tr("Moved")),
                   end(QStringLiteral("alarm"), tr("Gas alarm"))}
                       : std::vector<Row>{end(QStringLiteral("moved"), tr("Moved")), end(QStringLiteral("water-lost"), tr("Water lost")),
                           end(QStringLiteral("paused"), tr("Pause")), end(QStringLiteral("alarm"), tr("Gas alarm"))});
    tick(v.now_ms);
}

void ClockPage::tick(std::int64_t now_ms)
{
    m_now_ms = now_ms;
    //: under a task that comes again, and under one that ends the work
    m_task_line = m_watch || m_picture.view->log != rules::kNone ? tr("while it runs") : tr("when it is done");
    if (over() && !m_watch) {
        //: under what comes next, on a clock that ran out
        m_task_line = tr("when it has stopped");
    }
    if (m_watch && m_picture.view->clock) {
        const std::int64_t left = m_picture.view->clock->at_ms - now_ms;
        //: under a task that is due; %1 is a countdown
        m_task_line = left < 0 ? tr("%1 late").arg(countdown(left)) : tr("due in %1").arg(countdown(left));
    }
    Q_EMIT changed();
}

bool ClockPage::over() const
{
    const bool ran_out = m_picture.view && m_end_ms == rules::kNever && m_picture.view->standing.state != rules::State::Released;
    return ran_out || m_now_ms >= m_end_ms;
}

QString ClockPage::remaining() const
{
    if (m_end_ms == rules::kNever && !over()) {
        return {};
    }
    return over() ? QStringLiteral("0:00") : countdown(m_end_ms - m_now_ms);
}

double ClockPage::gone() const
{
    if (m_end_ms == rules::kNever) {
        return over() ? 1 : 0;
    }
    const double left = static_cast<double>(m_end_ms - m_now_ms) / static_cast<double>(m_length_ms);
    return std::clamp(1.0 - left, 0.0, 1.0);
}

} // namespace brimful::tablet
