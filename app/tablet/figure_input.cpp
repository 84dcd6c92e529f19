#include "app/tablet/figure_input.h"

#include <algorithm>
#include <cmath>

namespace brimful::tablet {

using canon::Json;

void FigureInput::setNearest(double value)
{
    const auto found = std::ranges::min_element(values, {}, [&](double one) { return std::abs(one - value); });
    at = static_cast<std::size_t>(found - values.begin());
}

void FigureInput::setOwn(double value)
{
    constexpr double kSame = 1e-9;
    setNearest(value);
    if (std::abs(values[at] - value) > kSame) {
        const auto own = values.insert(std::ranges::upper_bound(values, value), value);
        at = static_cast<std::size_t>(own - values.begin());
    }
}

std::vector<double> stepped(double from, double to, double by)
{
    std::vector<double> out;
    const auto steps = std::lround((to - from) / by);
    for (long i = 0; i <= steps; ++i) {
        out.push_back(from + static_cast<double>(i) * by);
    }
    return out;
}

std::string measure(double value, const char* unit) { return QString::number(value, 'f', 6).toStdString() + " " + unit; }

double numberOf(const Json& values, std::string_view key)
{
    const Json* found = values.find(key);
    return found == nullptr ? std::nan("") : found->number;
}

bool flagOf(const Json& values, std::string_view key)
{
    const Json* found = values.find(key);
    return found != nullptr && found->integer != 0;
}

bool warns(const std::vector<std::string>& warnings, std::string_view word) { return std::ranges::find(warnings, word) != warnings.end(); }

QString percentDigits(double percent)
{
    constexpr double kLeast = 0.01;
    return percent > 0.0 && percent < kLeast ? QStringLiteral("<0.01") : QString::number(percent, 'g', percent < 1.0 ? 2 : 3);
}

bool isShut(report::OpeningState state)
{
    return state == report::OpeningState::Plugged || state == report::OpeningState::Stuck || state == report::OpeningState::Unknown;
}

Json vesselInput(const report::ShellView& shell)
{
    Json out = Json::object();
    out.set("outside_diameter", measure(shell.outside_diameter_m, "m"))
        .set("wall", measure(shell.wall_m, "m"))
        .set("shell_length", measure(shell.shell_length_m, "m"))
        .set("left_head", shell.left_head)
        .set("right_head", shell.right_head);
    return out;
}

Json openingsInput(const std::vector<report::OpeningView>& openings)
{
    Json out = Json::array();
    for (const report::OpeningView& one : openings) {
        Json opening = Json::object();
        opening.set("name", one.name)
            .set("from_left_tangent", measure(one.from_left_tangent_m, "m"))
            .set("clock", measure(one.clock_deg, "deg"))
            .set("state", isShut(one.state) ? "plugged" : "open");
        out.items.push_back(std::move(opening));
    }
    return out;
}

} // namespace brimful::tablet
