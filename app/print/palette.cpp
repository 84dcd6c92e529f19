// The colours of each theme, in one place; qml/theme carries the same tokens.
#include "app/print/paint.h"

namespace brimful::print {

namespace {

void giveSignals(Palette& p)
{
    p.danger = QColor("#9B111E");
    p.danger_text = QColor("#FFFFFF");
    p.warning = QColor("#FF8A00");
    p.warning_text = QColor("#000000");
    p.caution = QColor("#FFD000");
    p.caution_text = QColor("#000000");
    p.notice = QColor("#004B7A");
    p.notice_text = QColor("#FFFFFF");
}

// Black on white: nothing is told by a tint.
Palette plain()
{
    Palette p;
    const QColor white("#FFFFFF");
    const QColor black("#000000");
    p.paper = p.panel = p.steel = p.water = p.gas = p.act_text = white;
    p.ink = p.ink2 = p.line = p.water_ink = p.gas_ink = p.act = black;
    p.fills = false;
    return p;
}

} // namespace

Palette Palette::light()
{
    Palette p;
    p.paper = QColor("#FAF8F2");
    p.panel = QColor("#FFFFFF");
    p.ink = QColor("#10181D");
    p.ink2 = QColor("#36424A");
    p.line = QColor("#5F6B72");
    p.steel = QColor("#DCE1E3");
    p.water = QColor("#D0E5F2");
    p.water_ink = QColor("#0A3D63");
    p.gas = QColor("#FBE5C6");
    p.gas_ink = QColor("#6A2E00");
    p.act = QColor("#10181D");
    p.act_text = QColor("#FAF8F2");
    giveSignals(p);
    return p;
}

Palette Palette::dark()
{
    Palette p;
    p.paper = QColor("#0E1418");
    p.panel = QColor("#18222A");
    p.ink = QColor("#F5F2EA");
    p.ink2 = QColor("#CBD3D6");
    p.line = QColor("#8B979D");
    p.steel = QColor("#2C373D");
    p.water = QColor("#12364F");
    p.water_ink = QColor("#A9DAF9");
    p.gas = QColor("#43290A");
    p.gas_ink = QColor("#FFCF92");
    p.act = QColor("#F5F2EA");
    p.act_text = QColor("#0E1418");
    giveSignals(p);
    return p;
}

Palette Palette::sunlight()
{
    Palette p = plain();
    giveSignals(p);
    return p;
}

Palette Palette::paperOneColour()
{
    Palette p = plain();
    const QColor white("#FFFFFF");
    const QColor black("#000000");
    p.danger = p.warning_text = p.caution_text = p.notice_text = black;
    p.danger_text = p.warning = p.caution = p.notice = white;
    return p;
}

} // namespace brimful::print
