// The alarm over every screen: which clock ran out, its sound, and the press that quiets it; and the band: what was heard and is still
// late, and the battery. It changes nothing of the record.
#include "app/tablet/tablet.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace brimful::tablet {

namespace {

constexpr int kReadBatteryS = 30; // it falls by a per cent in minutes

} // namespace

void Tablet::setSounder(std::unique_ptr<Sounder> sounder)
{
    m_sounder = std::move(sounder);
    m_clock_page.setSilent(!canSound());
    Q_EMIT alarmChanged();
}

bool Tablet::canSound() const { return m_sounder != nullptr && m_sounder->canSound(); }

void Tablet::countClocks(const std::vector<report::BoardRow>& board)
{
    const std::vector<Alarm::Clock> before = std::exchange(m_clocks, {});
    m_clocks_changed = false;
    for (const report::BoardRow& row : board) {
        const report::VesselView& view = *row.view;
        if (!row.read) { // what ran there runs on until it is read again
            std::ranges::copy_if(
                before, std::back_inserter(m_clocks), [&](const Alarm::Clock& clock) { return clock.number == view.number; });
        } else if (view.clock && Alarm::isOfWork(*view.clock)) {
            m_clocks.push_back({view.number, view.clock->what, view.clock->at_ms});
        }
    }
}

// Clocks are counted on every screen; the record is read again only when something was written.
void Tablet::watchClocks(std::int64_t now_ms)
{
    const auto before = m_alarm.ringing();
    m_alarm.see(m_clocks, now_ms); // what ran out meanwhile is no longer in the record when that is read again
    if (m_clocks_changed) {
        if (const auto board = m_session.yard().glance(kGlance)) {
            countClocks(*board);
        }
    }
    m_alarm.see(m_clocks, now_ms);
    if (m_alarm.ringing() != before) {
        m_clocks_changed = true; // a release that ran out is none any more, and the yard shows it
        if (m_screen == View::Yard) {
            showYard(false);
        }
    }
    ringIfLate();
    tellBand(now_ms);
    m_clock_page.setSilent(!canSound());
}

void Tablet::forgetClocks()
{
    m_alarm = {};
    m_clocks.clear();
    showBand({}, {});
    ringIfLate();
}

// What is late and was heard stays to be seen, wherever this tablet is but in the yard, whose rows say it; then what the battery says.
// A scan waits for its answer.
void Tablet::tellBand(std::int64_t now_ms)
{
    if (!m_band.isEmpty() && m_band_of == BandOf::Scan) {
        return;
    }
    if (const auto late = m_screen == View::Yard ? std::nullopt : m_alarm.heard(m_number)) {
        const QString number = QString::fromStdString(late->number);
        //: %1 another vessel's number, %2 how long ago its time ran out
        showBand(tr("%1: past its limit by %2").arg(number, countdown(late->at_ms - now_ms)), number, BandOf::Clock);
        return;
    }
    const QString words = batteryWords(now_ms);
    if (words.isEmpty()) { // of this screen; the next one says it anew
        m_battery_aside.clear();
    }
    showBand(words == m_battery_aside ? QString() : words, {}, BandOf::Battery);
}

void Tablet::setPowerFolder(const std::filesystem::path& folder)
{
    m_power_folder = folder;
    m_battery_read_in_s = 0;
}

QString Tablet::batteryWords(std::int64_t now_ms)
{
    if (--m_battery_read_in_s < 0) {
        m_battery_read_in_s = kReadBatteryS;
        m_battery = m_power_folder.empty() ? std::nullopt : readBattery(m_power_folder);
    }
    if (!m_battery || m_battery->plugged) {
        return {};
    }
    const int percent = m_battery->percent;
    if (m_screen == View::Sheet && m_sheet.isGate() && percent < kWaitBelow) {
        //: at a hold point
        return tr("Battery %1 %: a reason to wait. Plug in.").arg(percent);
    }
    const report::VesselView* view = m_screen == View::Clock ? m_vessel_page.view() : nullptr;
    if (view == nullptr || !view->clock || view->clock->at_ms <= now_ms || percent >= kPlugInBelow) {
        return {};
    }
    const auto folded = m_session.yard().folded(m_number);
    const bool tagged = folded && folded->newest_tag;
    const std::int64_t said = tagged ? folded->lines[*folded->newest_tag - 1].entry.payload.integerOf("until") : 0;
    const std::int64_t ends_ms = view->word == report::PlateWord::FireWatch && view->watch ? view->watch->ends_ms : view->clock->at_ms;
    const QString until = text::clockTime(said > now_ms ? said : ends_ms, m_session.reading);
    //: %1 per cent, %2 a time of day
    return said > now_ms ? tr("Battery %1 %. Plug in. The tag says until %2.").arg(percent).arg(until)
                         //: %1 per cent, %2 a time of day
                         : tr("Battery %1 %. Plug in. It runs until %2.").arg(percent).arg(until);
}

void Tablet::ringIfLate()
{
    const auto late = m_alarm.ringing();
    QString words;
    if (late) {
        const QString number = QString::fromStdString(late->number);
        //: the alarm; %1 a vessel's number
        words = late->what == "sweep" ? tr("%1: sweep now.").arg(number)
            //: the alarm; %1 a vessel's number
            : late->what == "unwatched" ? tr("%1: nobody watches.").arg(number)
            //: the alarm; %1 a vessel's number
            : late->what == "watch" ? tr("%1: look round now.").arg(number)
                                    //: the alarm; %1 a vessel's number
                                    : tr("%1: its time is over. Stop the work.").arg(number);
    }
    if (m_sounder != nullptr) {
        m_sounder->ring(late.has_value());
    }
    if (words != m_alarm_words) {
        m_alarm_words = words;
        Q_EMIT alarmChanged();
    }
}

void Tablet::hearAlarm()
{
    const std::int64_t now = m_session.isOpen() ? m_session.yard().nowMs() : 0;
    m_alarm.hear(now);
    if (m_session.isOpen()) {
        watchClocks(now);
    }
    ringIfLate();
}

void Tablet::trySound()
{
    if (m_sounder != nullptr) {
        m_sounder->once();
    }
    Q_EMIT alarmChanged(); // whether there is one is asked anew
}

} // namespace brimful::tablet
