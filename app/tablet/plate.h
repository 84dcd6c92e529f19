// The strip that stands on top of every vessel screen: number plate, standing panel, clock.
#pragma once

#include "app/text/words.h"
#include "core/report/view.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace brimful::tablet {

// A clock that runs out, in the letters of the screen: "47:12", "1 h 52", "4 min".
[[nodiscard]] QString countdown(std::int64_t remaining_ms);
[[nodiscard]] QString clockCaption(const report::ClockView& clock, std::int64_t now_ms);
[[nodiscard]] QString signalName(report::Signal); // "danger": a colour of the theme
[[nodiscard]] QString standingGlyph(report::PlateWord); // name of the drawn shape

class Plate : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(QString number READ number NOTIFY changed FINAL)
    Q_PROPERTY(QString word READ word NOTIFY changed FINAL)
    Q_PROPERTY(QString line READ line NOTIFY changed FINAL)
    Q_PROPERTY(QString hazard READ signalWord NOTIFY changed FINAL)
    Q_PROPERTY(QString colour READ colour NOTIFY changed FINAL)
    Q_PROPERTY(QString glyph READ glyph NOTIFY changed FINAL)
    Q_PROPERTY(QString clock READ clock NOTIFY changed FINAL)
    Q_PROPERTY(QString caption READ caption NOTIFY changed FINAL)
    Q_PROPERTY(QString spoken READ spoken NOTIFY changed FINAL) // all of it in one sentence
    Q_PROPERTY(bool demo READ demo NOTIFY changed FINAL)

public:
    using QObject::QObject;
    void show(const report::VesselView&, const rules::Pack&, const text::Reading&, std::int64_t now_ms);
    void setDemo(bool demo);

    [[nodiscard]] QString number() const { return m_number; }
    [[nodiscard]] QString word() const { return m_word; }
    [[nodiscard]] QString line() const { return m_line; }
    [[nodiscard]] QString signalWord() const { return m_signal; }
    [[nodiscard]] QString colour() const { return m_colour; }
    [[nodiscard]] QString glyph() const { return m_glyph; }
    [[nodiscard]] QString clock() const { return m_clock; }
    [[nodiscard]] QString caption() const { return m_caption; }
    [[nodiscard]] QString spoken() const;
    [[nodiscard]] bool demo() const { return m_demo; }

Q_SIGNALS:
    void changed();

private:
    QString m_number, m_word, m_line, m_signal, m_colour, m_glyph, m_clock, m_caption;
    bool m_demo{};
};

} // namespace brimful::tablet
