#include "app/tablet/plate.h"

#include <QCoreApplication>

#include <cstdlib>

namespace brimful::tablet {

QString countdown(std::int64_t remaining_ms)
{
    const std::int64_t seconds = std::abs(remaining_ms) / 1000;
    const std::int64_t minutes = seconds / 60;
    if (remaining_ms < 0) {
        //: how long a clock is past its limit
        return minutes < 60 ? QCoreApplication::translate("Plate", "%1 min").arg(minutes)
                            : QCoreApplication::translate("Plate", "%1 h %2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
    }
    if (minutes >= 24 * 60) {
        //: how long a clock still runs
        return Plate::tr("%n day(s)", nullptr, static_cast<int>(minutes / (24 * 60)));
    }
    if (minutes >= 60) {
        //: hours and minutes on a clock: "1 h 52"
        return QCoreApplication::translate("Plate", "%1 h %2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
    }
    return QStringLiteral("%1:%2").arg(minutes).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

QString clockCaption(const report::ClockView& clock, std::int64_t now_ms)
{
    const bool past = clock.at_ms < now_ms;
    if (past) {
        //: under a clock that ran out; at most 12 letters
        return QCoreApplication::translate("Plate", "past limit");
    }
    if (clock.what == "release") {
        //: under a clock; at most 12 letters
        return QCoreApplication::translate("Plate", "to the end");
    }
    if (clock.what == "sweep") {
        //: under a clock; at most 12 letters
        return QCoreApplication::translate("Plate", "next sweep");
    }
    if (clock.what == "watch") {
        //: under a clock; at most 12 letters
        return QCoreApplication::translate("Plate", "of watch");
    }
    //: under a clock: something that was proven lapses then; at most 12 letters
    return QCoreApplication::translate("Plate", "to lapse");
}

QString signalName(report::Signal signal)
{
    switch (signal) {
    case report::Signal::Danger:
        return QStringLiteral("danger");
    case report::Signal::Warning:
        return QStringLiteral("warning");
    case report::Signal::Caution:
        return QStringLiteral("caution");
    case report::Signal::Notice:
        return QStringLiteral("notice");
    }
    return {};
}

QString standingGlyph(report::PlateWord word)
{
    switch (word) {
    case report::PlateWord::Held:
    case report::PlateWord::RecordDamaged:
    case report::PlateWord::ClockUnknown:
        return QStringLiteral("held");
    case report::PlateWord::Released:
        return QStringLiteral("released");
    case report::PlateWord::FireWatch:
        return QStringLiteral("watch");
    case report::PlateWord::Draining:
        return QStringLiteral("draining");
    case report::PlateWord::Stopped:
        return QStringLiteral("stopped");
    case report::PlateWord::Refused:
    case report::PlateWord::NotOurs:
        return QStringLiteral("refused");
    case report::PlateWord::ClosedOut:
        return QStringLiteral("closed");
    }
    return {};
}

void Plate::show(const report::VesselView& view, const rules::Pack& pack, const text::Reading& reading, std::int64_t now_ms)
{
    m_number = QString::fromStdString(view.number);
    m_word = text::plateWord(view.word);
    m_line = text::plateLine(view, pack, reading);
    m_signal = text::signalWord(view.signal);
    m_colour = signalName(view.signal);
    m_glyph = standingGlyph(view.word);
    m_clock = view.clock ? countdown(view.clock->at_ms - now_ms) : QString();
    m_caption = view.clock ? clockCaption(*view.clock, now_ms) : QString();
    m_demo = view.demo;
    Q_EMIT changed();
}

void Plate::setDemo(bool demo)
{
    m_demo = demo;
    Q_EMIT changed();
}

QString Plate::spoken() const
{
    //: read aloud: vessel's number, signal word, standing, second line
    return tr("%1, %2, %3 %4").arg(m_number, m_signal, m_word, m_line);
}

} // namespace brimful::tablet
