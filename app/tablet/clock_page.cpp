#include "app/tablet/clock_page.h"

#include "app/tablet/plate.h"
#include "core/quantity/recorded.h"
#include "core/report/drawn.h"
#include "core/report/watch.h"

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
    m_watch = v.word == report::PlateWord::FireWatch && v.watch;
    m_swept.clear();
    m_coming.clear();
    m_stop_at.clear();
    m_leave_at.clear();
    m_hand_on_step = rules::kNone;
    m_hand_on.clear();
    m_hand_on_line.clear();
    if (m_watch) {
        showWatch(pack, reading);
    } else {
        showWork(pack, reading);
    }
    tick(v.now_ms);
}

void ClockPage::showWork(const rules::Pack& pack, const text::Reading& reading)
{
    const report::VesselView& v = *m_picture.view;
    m_end_ms = v.standing.state == rules::State::Released ? v.standing.until_ms : v.clock ? v.clock->at_ms : rules::kNever;
    const rules::Index gate = v.standing.hold_point;
    m_length_ms = std::max<std::int64_t>(1, gate == rules::kNone ? 1 : pack.hold_points[gate].lasts_ms);

    // A log comes again while it runs; what is recorded when the work is done comes once.
    m_step = v.log;
    m_task = m_step == rules::kNone ? QString() : tr("Log gas");
    const auto next = std::ranges::find(v.standing.next, rules::Next::What::Step, &rules::Next::what);
    m_done_step = next == v.standing.next.end() || next->index == m_step ? rules::kNone : next->index;
    m_done = m_done_step == rules::kNone ? QString() : text::stepTitle(pack, m_done_step);
    if (m_step == rules::kNone) {
        m_step = std::exchange(m_done_step, rules::kNone);
        m_task = std::exchange(m_done, QString());
    }
    if (v.log != rules::kNone) {
        m_stop_at = parameterWord(pack, kStopAt, reading);
        m_leave_at = parameterWord(pack, kLeaveAt, reading);
    }

    std::vector<Row> lines;
    if (gate != rules::kNone) {
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
    m_sweeps.set({});
    m_ends.set({end(QStringLiteral("moved"), tr("Moved")), end(QStringLiteral("water-lost"), tr("Water lost")),
        end(QStringLiteral("paused"), tr("Pause")), end(QStringLiteral("alarm"), tr("Gas alarm"))});
}

// When sweeps are due from now on, if each is made in time; the last at the end of the watch.
std::vector<std::int64_t> ClockPage::sweepsToCome(const rules::Pack& pack) const
{
    const report::WatchView& watch = *m_picture.view->watch;
    std::vector<std::int64_t> due;
    std::int64_t before = watch.since_ms - 1;
    for (std::int64_t at = watch.next_sweep_ms; at < watch.ends_ms && at > before; at = report::nextSweepMs(pack, watch.since_ms, at)) {
        due.push_back(at);
        before = at;
    }
    due.push_back(watch.ends_ms);
    return due;
}

void ClockPage::showWatch(const rules::Pack& pack, const text::Reading& reading)
{
    const report::WatchView& watch = *m_picture.view->watch;
    m_end_ms = watch.ends_ms;
    m_length_ms = std::max<std::int64_t>(1, watch.ends_ms - watch.since_ms);
    m_step = watch.places.empty() ? rules::kNone : pack.step(report::drawn::kSweep);
    m_task = m_step == rules::kNone ? QString() : tr("Sweep");
    m_done_step = pack.step(report::drawn::kWatch);
    m_done = tr("End watch");
    if (m_step == rules::kNone) { // a pack of before there were sweeps
        m_step = std::exchange(m_done_step, rules::kNone);
        m_task = std::exchange(m_done, QString());
    }

    m_hand_on_step = pack.step(report::drawn::kHandOn);
    m_hand_on = m_hand_on_step == rules::kNone ? QString() : text::stepTitle(pack, m_hand_on_step);
    //: under "Hand on watch"; %1 a person
    m_hand_on_line = watch.left_ms ? tr("nobody watches")
        : watch.watcher.empty()    ? QString()
                                   : tr("%1 watches").arg(QString::fromStdString(watch.watcher));

    std::vector<Row> places;
    if (watch.left_ms) {
        const QString since = text::clockTime(*watch.left_ms, reading);
        //: %1 a time of day
        places.push_back(
            line({}, tr("Nobody watches since %1. The watch starts again, whole, when somebody sweeps or takes it over.").arg(since)));
    } else {
        for (std::size_t i = 0; i < watch.places.size(); ++i) {
            places.push_back(line(QString::number(i + 1), text::ofPack(pack, "place." + watch.places[i])));
        }
    }
    if (m_silent) {
        places.push_back(line({}, tr("The alarm makes no sound here.")));
    }
    m_lines.set(std::move(places));

    const auto share = [&](std::int64_t at) { return static_cast<double>(at - watch.since_ms) / static_cast<double>(m_length_ms); };
    std::vector<Row> sweeps;
    for (const report::SweepView& one : watch.sweeps) {
        m_swept.push_back(std::clamp(share(one.at_ms), 0.0, 1.0));
        Row row = line(text::clockTime(one.at_ms, reading),
            //: of a sweep: how many places were found cool
            one.cool == one.places ? tr("%n cool", nullptr, static_cast<int>(one.cool))
                                   : tr("%1 of %2 cool").arg(one.cool).arg(one.places));
        row.key = QString::number(sweeps.size());
        sweeps.push_back(std::move(row));
    }
    const std::vector<std::int64_t> due = watch.left_ms ? std::vector<std::int64_t>{} : sweepsToCome(pack);
    for (std::size_t i = 0; i < due.size(); ++i) {
        m_coming.push_back(share(due[i]));
        const bool last = i + 1 == due.size();
        if (i == 0 || last) {
            //: of the sweep that is due then
            Row row = line(text::clockTime(due[i], reading), last ? tr("last") : tr("next"));
            row.chosen = true;
            row.key = row.line;
            sweeps.push_back(std::move(row));
        }
    }
    m_sweeps.set(std::move(sweeps));
    m_ends.set(watch.left_ms ? std::vector<Row>{} : std::vector{end(QStringLiteral("person-left"), tr("I must leave"))});
}

void ClockPage::tick(std::int64_t now_ms)
{
    m_now_ms = now_ms;
    if (m_watch) {
        const report::WatchView& watch = *m_picture.view->watch;
        if (watch.left_ms) { // it stands still
            m_end_ms = now_ms + m_length_ms;
        }
        const std::int64_t left = std::min(watch.next_sweep_ms, watch.ends_ms) - now_ms;
        const bool first = watch.sweeps.empty() && watch.next_sweep_ms <= now_ms && now_ms < watch.sweep_late_ms;
        //: under "Sweep", when the watch begins again with it
        m_task_line = watch.left_ms ? tr("starts the watch again")
            : first                 ? tr("due now")
            //: under a task that is due; %1 is a countdown
            : left < 0 ? tr("%1 late").arg(countdown(left))
                       : tr("due in %1").arg(countdown(left));
        //: under "End watch"; %1 is a countdown
        m_done_line = m_end_ms > now_ms ? tr("in %1").arg(countdown(m_end_ms - now_ms)) : tr("due now");
    } else {
        //: under a task that comes again, and under one that ends the work
        m_task_line = m_picture.view->log != rules::kNone ? tr("while it runs") : tr("when it is done");
        m_done_line = tr("when it is done");
        if (over()) {
            //: under what comes next, on a clock that ran out
            m_task_line = tr("when it has stopped");
        }
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
