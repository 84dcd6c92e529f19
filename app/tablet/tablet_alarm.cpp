// The alarm over every screen: which clock ran out, its sound, and the press that quiets it. It changes nothing of the record.
#include "app/tablet/tablet.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace brimful::tablet {

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
    tellLate(now_ms);
    m_clock_page.setSilent(!canSound());
}

void Tablet::forgetClocks()
{
    m_alarm = {};
    m_clocks.clear();
    showBand({}, {});
    ringIfLate();
}

// What is late and was heard stays to be seen, wherever this tablet is but in the yard, whose rows say it. A scan waits for its answer.
void Tablet::tellLate(std::int64_t now_ms)
{
    if (!m_band.isEmpty() && !m_band_of_clock) {
        return;
    }
    const auto late = m_screen == View::Yard ? std::nullopt : m_alarm.heard(m_number);
    if (!late) {
        showBand({}, {});
        return;
    }
    const QString number = QString::fromStdString(late->number);
    //: %1 another vessel's number, %2 how long ago its time ran out
    showBand(tr("%1: past its limit by %2").arg(number, countdown(late->at_ms - now_ms)), number);
    m_band_of_clock = true;
}

void Tablet::ringIfLate()
{
    const auto late = m_alarm.ringing();
    QString words;
    if (late) {
        const QString number = QString::fromStdString(late->number);
        //: the alarm; %1 a vessel's number
        words = late->what == "watch" ? tr("%1: look round now.").arg(number)
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
