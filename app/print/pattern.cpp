#include "app/print/pattern.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace brimful::print {

namespace {

std::optional<Stroke::Role> roleOf(const QString& word)
{
    constexpr std::pair<const char*, Stroke::Role> kRoles[] = {{"cut", Stroke::Role::Cut}, {"line", Stroke::Role::Line},
        {"centre", Stroke::Role::Centre}, {"seam", Stroke::Role::Seam}, {"mark", Stroke::Role::Mark}};
    for (const auto& [name, role] : kRoles) {
        if (word == QLatin1String(name)) {
            return role;
        }
    }
    return std::nullopt;
}

// A micrometre is finer than any blade; no locale.
std::string number(double value)
{
    std::string text = QByteArray::number(value, 'f', 6).toStdString();
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
        text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

const char* layerOf(Stroke::Role role)
{
    switch (role) {
    case Stroke::Role::Cut:
        return "CUT";
    case Stroke::Role::Line:
        return "LINE";
    case Stroke::Role::Centre:
        return "CENTRE";
    case Stroke::Role::Seam:
        return "SEAM";
    case Stroke::Role::Mark:
        return "MARK";
    }
    return "0";
}

// Every pattern moved to the right of the one before, lower left corners on one line.
std::vector<Pattern> sideBySide(const std::vector<Pattern>& patterns)
{
    constexpr double kBetween = 50;
    std::vector<Pattern> out = patterns;
    double x = 0;
    for (Pattern& pattern : out) {
        const QRectF box = pattern.bounds();
        for (Stroke& stroke : pattern.strokes) {
            stroke.points.translate(x - box.left(), -box.top());
        }
        x += box.width() + kBetween;
    }
    return out;
}

void group(std::string& out, int code, const std::string& value)
{
    out += std::to_string(code);
    out += '\n';
    out += value;
    out += '\n';
}

void point(std::string& out, const QPointF& at)
{
    group(out, 10, number(at.x()));
    group(out, 20, number(at.y()));
    group(out, 30, "0");
}

void polyline(std::string& out, const Stroke& stroke)
{
    const std::string layer = layerOf(stroke.role);
    group(out, 0, "POLYLINE");
    group(out, 8, layer);
    group(out, 66, "1");
    point(out, {0, 0});
    group(out, 70, stroke.closed ? "1" : "0");
    for (const QPointF& at : stroke.points) {
        group(out, 0, "VERTEX");
        group(out, 8, layer);
        point(out, at);
    }
    group(out, 0, "SEQEND");
    group(out, 8, layer);
}

void text(std::string& out, const char* layer, const QPointF& at, double height, const QString& words)
{
    QString plain; // release 12 knows no other letters
    for (const QChar letter : words) {
        plain += letter.unicode() >= 32 && letter.unicode() < 127 ? letter : QLatin1Char('?');
    }
    group(out, 0, "TEXT");
    group(out, 8, layer);
    point(out, at);
    group(out, 40, number(height));
    group(out, 1, plain.toStdString());
}

} // namespace

QRectF Pattern::bounds() const
{
    QPolygonF all;
    for (const Stroke& stroke : strokes) {
        all << stroke.points;
    }
    return all.boundingRect();
}

std::vector<Pattern> patternsOf(const figure::Result& result)
{
    constexpr double kMillimetres = 1000;
    std::vector<Pattern> out;
    for (const figure::Line& line : result.picture) {
        const QString part = QString::fromStdString(line.part);
        const auto role = roleOf(part.section(QLatin1Char(':'), 0, 0));
        const QString name = part.section(QLatin1Char(':'), 1, 1);
        if (!role || name.isEmpty()) {
            continue;
        }
        auto pattern = std::ranges::find(out, name, &Pattern::name);
        if (pattern == out.end()) {
            out.push_back({name, {}});
            pattern = out.end() - 1;
        }
        Stroke stroke{*role, part.section(QLatin1Char(':'), 2), line.closed, {}};
        for (const auto& [x, y] : line.metres) {
            stroke.points << QPointF(x * kMillimetres, y * kMillimetres);
        }
        pattern->strokes.push_back(std::move(stroke));
    }
    std::erase_if(out, [](const Pattern& one) {
        return std::ranges::none_of(one.strokes, [](const Stroke& stroke) { return stroke.role == Stroke::Role::Cut; });
    });
    return out;
}

std::string patternDxf(const std::vector<Pattern>& patterns)
{
    std::string out;
    group(out, 0, "SECTION");
    group(out, 2, "HEADER");
    group(out, 9, "$ACADVER");
    group(out, 1, "AC1009");
    group(out, 9, "$INSUNITS");
    group(out, 70, "4"); // millimetres
    group(out, 9, "$MEASUREMENT");
    group(out, 70, "1");
    group(out, 0, "ENDSEC");
    group(out, 0, "SECTION");
    group(out, 2, "TABLES");
    group(out, 0, "TABLE");
    group(out, 2, "LAYER");
    group(out, 70, "5");
    for (const auto& [layer, colour] :
        {std::pair("CUT", "7"), std::pair("LINE", "5"), std::pair("CENTRE", "5"), std::pair("SEAM", "3"), std::pair("MARK", "8")}) {
        group(out, 0, "LAYER");
        group(out, 2, layer);
        group(out, 70, "0");
        group(out, 62, colour);
        group(out, 6, "CONTINUOUS");
    }
    group(out, 0, "ENDTAB");
    group(out, 0, "ENDSEC");
    group(out, 0, "SECTION");
    group(out, 2, "ENTITIES");
    for (const Pattern& pattern : sideBySide(patterns)) {
        for (const Stroke& stroke : pattern.strokes) {
            polyline(out, stroke);
            if (stroke.role == Stroke::Role::Mark && !stroke.label.isEmpty()) {
                text(out, "MARK", stroke.points.first() + QPointF(1, -5), 4, stroke.label);
            }
        }
        text(out, "MARK", pattern.bounds().topLeft() + QPointF(5, -12), 8, pattern.name);
    }
    group(out, 0, "ENDSEC");
    group(out, 0, "EOF");
    return out;
}

std::string patternSvg(const std::vector<Pattern>& patterns)
{
    const std::vector<Pattern> placed = sideBySide(patterns);
    QRectF box;
    for (const Pattern& pattern : placed) {
        box = box.united(pattern.bounds());
    }
    box.adjust(-10, -10, 10, 10);
    const std::string width = number(box.width());
    const std::string height = number(box.height());
    std::string out = R"(<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width=")" + width + R"(mm" height=")" + height
        + R"(mm" viewBox="0 0 )" + width + " " + height + R"(" fill="none" stroke="black">)" + "\n";
    for (const Pattern& pattern : placed) {
        out += R"(<g id=")" + pattern.name.toHtmlEscaped().toStdString() + "\">\n";
        for (const Stroke& stroke : pattern.strokes) {
            out += stroke.closed ? "<polygon" : "<polyline";
            out += R"( class=")" + std::string(layerOf(stroke.role)) + R"(" stroke-width=")"
                + (stroke.role == Stroke::Role::Cut ? "0.3" : "0.15") + R"(" points=")";
            for (const QPointF& at : stroke.points) {
                out += number(at.x() - box.left()) + "," + number(box.bottom() - at.y()) + " ";
            }
            out.back() = '"';
            out += "/>\n";
        }
        out += "</g>\n";
    }
    return out + "</svg>\n";
}

} // namespace brimful::print
