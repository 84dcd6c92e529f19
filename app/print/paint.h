// A picture is painted once: on screen, on paper, in SVG and PNG. Pixels come from a transform; hit points from the same one.
#pragma once

#include "app/text/words.h"
#include "core/figure/figure.h"
#include "core/report/view.h"

#include <QColor>
#include <QPainter>
#include <QRectF>
#include <QString>

#include <vector>

namespace brimful::print {

// Colours of one theme; qml/theme has the same tokens, and a test holds both against each other.
struct Palette {
    QColor paper, panel, ink, ink2, line, steel, water, water_ink, gas, gas_ink, act, act_text;
    QColor danger, danger_text, warning, warning_text, caution, caution_text, notice, notice_text;
    bool fills{true}; // sunlight and one-colour paper: hatch and dots only
    static Palette light();
    static Palette dark();
    static Palette sunlight();
    static Palette paperOneColour();
};

// Where a part was drawn, for the tab that leads to it and for the hand that taps it.
struct PartPlace {
    QString id; // as report::PartView::id
    QPointF anchor; // point on the drawing, in the painter's units
    QRectF box;
};

struct DrawOptions {
    QRectF box; // where the drawing goes
    double px_per_m{}; // 0: as large as fits
    double line_scale{1.0}; // 1 = 9 px wall on a 1280 px screen
    bool labels{true}; // opening names
    bool ground{true};
    bool sweep{}; // under FIRE WATCH its numbered places, in the place of the readings'
    double steeper{3.0}; // tilt under five degrees is drawn so many times as steep, and says so
};

// The vessel's section with its water, pocket, openings, places, cut, tilt and state: the program's one drawing.
std::vector<PartPlace> paintVessel(QPainter&, const report::VesselView&, const Palette&, const DrawOptions&);

// Journey as a run of pipe with five blinds.
std::vector<PartPlace> paintRun(
    QPainter&, const report::VesselView&, const Palette&, const QRectF& box, const std::vector<QString>& gate_names);

// The blind of a hold point grown large: bolts (answers) and locks (signatures).
struct BlindState {
    int questions{};
    int answered{};
    int asking{-1};
    int locks{2};
    int locked{};
    bool released{};
};
void paintBlind(QPainter&, const BlindState&, const report::VesselView&, const Palette&, const QRectF& box);

// A figure's picture: named lines in metres. `line_scale` as in DrawOptions; 0: by the box.
std::vector<PartPlace> paintFigure(QPainter&, const figure::Result&, const Palette&, const QRectF& box, double line_scale = 0);

// B612 from the program itself, so that a machine without fonts prints the same. Needs a QGuiApplication. The families
// have names of this program's own: ask for fontFamily() and monoFamily(), never for "B612".
void loadFonts();
[[nodiscard]] QString fontFamily();
[[nodiscard]] QString monoFamily();

} // namespace brimful::print
