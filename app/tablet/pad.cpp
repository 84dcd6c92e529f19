#include "app/tablet/pad.h"

#include "core/quantity/parse.h"

#include <QRegularExpression>

#include <algorithm>

namespace brimful::tablet {

using quantity::Dimension;

namespace {

constexpr int kLongest = 16;

std::vector<QString> unitsOf(Dimension dimension, text::Units units)
{
    const bool us = units == text::Units::Us;
    const auto both = [us](QString first, QString second) {
        return us ? std::vector<QString>{std::move(first), std::move(second)} : std::vector<QString>{std::move(second), std::move(first)};
    };
    switch (dimension) {
    case Dimension::Length:
        return us ? std::vector<QString>{QStringLiteral("in"), QStringLiteral("ft"), QStringLiteral("mm")}
                  : std::vector<QString>{QStringLiteral("mm"), QStringLiteral("m"), QStringLiteral("in")};
    case Dimension::Volume:
        return us ? std::vector<QString>{QStringLiteral("galUS"), QStringLiteral("L"), QStringLiteral("ft3")}
                  : std::vector<QString>{QStringLiteral("L"), QStringLiteral("m3"), QStringLiteral("galUS")};
    case Dimension::Duration:
        return {QStringLiteral("min"), QStringLiteral("h"), QStringLiteral("s")};
    case Dimension::Temperature:
        return both(QStringLiteral("degF"), QStringLiteral("degC"));
    case Dimension::Pressure:
        return both(QStringLiteral("psi"), QStringLiteral("bar")); // what a gauge shows, above the air outside
    case Dimension::Mass:
        return both(QStringLiteral("lb"), QStringLiteral("kg"));
    case Dimension::VolumeFlow:
        return both(QStringLiteral("galUS/min"), QStringLiteral("L/min"));
    case Dimension::Speed:
        return both(QStringLiteral("ft/min"), QStringLiteral("m/s"));
    case Dimension::VolumeShare:
        return {QStringLiteral("%")};
    case Dimension::LimitShare:
        return {QStringLiteral("%LEL")};
    case Dimension::Angle:
        return {QStringLiteral("deg")};
    case Dimension::Area:
        return both(QStringLiteral("in2"), QStringLiteral("m2"));
    case Dimension::Force:
        return both(QStringLiteral("lbf"), QStringLiteral("N"));
    case Dimension::Power:
        return {QStringLiteral("kW")};
    case Dimension::Energy:
        return {QStringLiteral("kJ")};
    case Dimension::HeatTransfer:
        return {QStringLiteral("W/m2K")};
    case Dimension::Number:
    case Dimension::Density:
        return {};
    }
    return {};
}

bool mayBeBelowZero(Dimension dimension)
{
    return dimension == Dimension::Angle || dimension == Dimension::Temperature || dimension == Dimension::Pressure;
}

} // namespace

QString unitShown(const QString& unit)
{
    static const std::vector<std::pair<QString, QString>> kShown{{QStringLiteral("galUS/min"), QStringLiteral("gal/min")},
        {QStringLiteral("galUS"), QStringLiteral("gal")}, {QStringLiteral("degC"), QStringLiteral("°C")},
        {QStringLiteral("degF"), QStringLiteral("°F")}, {QStringLiteral("deg"), QStringLiteral("°")},
        {QStringLiteral("ft3"), QStringLiteral("ft³")}, {QStringLiteral("m3"), QStringLiteral("m³")}};
    const auto found = std::ranges::find(kShown, unit, &std::pair<QString, QString>::first);
    return found == kShown.end() ? unit : found->second;
}

Pad::Pad(QObject* parent)
    : QObject(parent)
{
}

void Pad::ask(const QString& caption, Dimension dimension, const text::Reading& reading)
{
    m_caption = caption;
    m_dimension = dimension;
    m_count = dimension == Dimension::Number;
    m_reading = reading;
    m_text.clear();
    m_choices = unitsOf(dimension, reading.units);
    m_unit = m_choices.empty() ? QString() : m_choices.front();
    fillUnits();
    Q_EMIT changed();
}

void Pad::askCount(const QString& caption) { ask(caption, Dimension::Number, m_reading); }

void Pad::put(const std::string& typed)
{
    const QString text = QString::fromStdString(typed).simplified();
    static const QRegularExpression kLast(QStringLiteral("^(.*?)\\s*([^\\d\\s./-][^\\s]*)$"));
    const auto match = kLast.match(text);
    m_text = match.hasMatch() ? match.captured(1) : text;
    if (match.hasMatch() && std::ranges::find(m_choices, match.captured(2)) != m_choices.end()) {
        m_unit = match.captured(2);
    }
    static const QRegularExpression kFeet(QStringLiteral("\\s*ft\\s*"));
    m_text.replace(kFeet, QStringLiteral("ft"));
    static const QRegularExpression kWhole(QStringLiteral("(\\d) (\\d+/)"));
    m_text.replace(kWhole, QStringLiteral("\\1in\\2"));
    fillUnits();
    Q_EMIT changed();
}

void Pad::press(const QString& key)
{
    if (key == QStringLiteral("±")) {
        m_text = m_text.startsWith(u'-') ? m_text.mid(1) : u'-' + m_text;
        Q_EMIT changed();
        return;
    }
    const QString one = key == QLatin1String(",") ? QStringLiteral(".") : key;
    const bool digit = one.size() == 1 && one.front().isDigit();
    if (m_text.size() >= kLongest || (!digit && one != QLatin1String(".") && one != QLatin1String("/"))) {
        return;
    }
    if (one == QLatin1String("/")
        && (freeKey() != QLatin1String("/") || m_text.isEmpty() || m_text.contains(u'/') || !m_text.back().isDigit())) {
        return;
    }
    if (one == QLatin1String(".") && (m_count || m_text.contains(u'.') || m_text.contains(u'/'))) {
        return;
    }
    m_text += one == QLatin1String(".") && (m_text.isEmpty() || !m_text.back().isDigit()) ? QStringLiteral("0.") : one;
    Q_EMIT changed();
}

void Pad::erase()
{
    const bool word = m_text.endsWith(QLatin1String("ft")) || m_text.endsWith(QLatin1String("in"));
    m_text.chop(word ? 2 : 1);
    Q_EMIT changed();
}

void Pad::eraseAll()
{
    m_text.clear();
    Q_EMIT changed();
}

void Pad::pickUnit(const QString& key)
{
    if (std::ranges::find(m_choices, key) == m_choices.end()) {
        return;
    }
    const bool mark = m_dimension == Dimension::Length && (key == QLatin1String("ft") || key == QLatin1String("in")) && !m_text.isEmpty()
        && m_text.back().isDigit() && !m_text.contains(u'/') && !m_text.contains(u'.');
    if (mark && !m_text.contains(key) && !(key == QLatin1String("ft") && m_text.contains(QLatin1String("in")))) {
        m_text += key; // "7ft", "7ft8in": digits that follow belong to the next smaller part
        m_unit = QStringLiteral("in");
    } else {
        if (key != QLatin1String("in") && key != QLatin1String("ft")) {
            static const QRegularExpression kMarks(QStringLiteral("ft|in|/.*"));
            m_text.remove(kMarks);
        }
        m_unit = key;
    }
    fillUnits();
    Q_EMIT changed();
}

void Pad::nextUnit()
{
    const auto at = std::ranges::find(m_choices, m_unit);
    if (at != m_choices.end()) {
        const auto next = at + 1 == m_choices.end() ? m_choices.begin() : at + 1;
        m_unit = *next;
        fillUnits();
        Q_EMIT changed();
    }
}

void Pad::fillUnits()
{
    std::vector<Row> rows;
    for (const QString& unit : m_choices) {
        Row row;
        row.key = unit;
        row.title = unitShown(unit);
        row.chosen = unit == m_unit;
        rows.push_back(std::move(row));
    }
    m_units.set(std::move(rows));
}

QString Pad::shown() const
{
    QString text = m_text;
    text.replace(QLatin1String("ft"), QStringLiteral(" ft "));
    text.replace(QLatin1String("in"), QStringLiteral(" "));
    return text.replace(u'-', u'\u2212').trimmed();
}

QString Pad::unitWord() const
{
    if (m_text.endsWith(QLatin1String("ft"))) {
        return {};
    }
    return unitShown(m_unit);
}

QString Pad::freeKey() const
{
    if (m_dimension == Dimension::Length && inches()) {
        return QStringLiteral("/");
    }
    return mayBeBelowZero(m_dimension) ? QStringLiteral("±") : QString();
}

std::string Pad::typed() const
{
    if (m_text.isEmpty()) {
        return {};
    }
    QString text = m_text;
    if (text.endsWith(u'.')) {
        text.chop(1);
    }
    const bool feet_only = text.endsWith(QLatin1String("ft"));
    text.replace(QLatin1String("ft"), QStringLiteral(" ft "));
    text.replace(QLatin1String("in"), QStringLiteral(" "));
    text = text.simplified();
    if (m_count || feet_only) {
        return text.toStdString();
    }
    const bool parts = m_text.contains(QLatin1String("ft")) || m_text.contains(QLatin1String("in"));
    return (text + u' ' + (parts ? QStringLiteral("in") : m_unit)).toStdString();
}

QString Pad::said() const
{
    if (empty()) {
        return {};
    }
    const QString unit = unitWord();
    const QString number = shown();
    return unit.isEmpty() ? number : number + (unit == QStringLiteral("°") ? QString() : QStringLiteral(" ")) + unit;
}

std::optional<double> Pad::si() const
{
    const auto read = quantity::parse(typed(), m_dimension);
    return read ? std::optional(read->si) : std::nullopt;
}

std::optional<std::int64_t> Pad::whole() const
{
    bool good = false;
    const qlonglong value = m_text.toLongLong(&good);
    return good ? std::optional<std::int64_t>(value) : std::nullopt;
}

QString Pad::echo() const
{
    if (m_text.isEmpty() || m_count || m_choices.size() < 2) {
        return {};
    }
    const auto value = si();
    if (!value) {
        //: beside the number field: what was typed is not a number with a unit
        return tr("does not read");
    }
    text::Reading other = m_reading;
    const bool us_typed = m_unit == QLatin1String("in") || m_unit == QLatin1String("ft") || m_unit == QLatin1String("galUS")
        || m_unit == QLatin1String("ft3") || m_unit == QLatin1String("degF") || m_unit == QLatin1String("psi")
        || m_unit == QLatin1String("lb");
    other.units = us_typed ? text::Units::Si : text::Units::Us;
    return QStringLiteral("= ") + text::quantity(*value, m_dimension, other);
}

} // namespace brimful::tablet
