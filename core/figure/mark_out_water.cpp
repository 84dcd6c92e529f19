// The water of the cut plan, on the mark-out.
#include "core/figure/check.h"
#include "core/figure/mark_out_picture.h"

#include <algorithm>
#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;

constexpr double kPi = std::numbers::pi;

// Lowest and highest place of a cut's line on the inside, above the axis at the left tangent line.
std::pair<double, double> heightsOf(const FeatureRead& one, const MarkOutSettings& s, const WaterRead& water)
{
    const double inside = s.radius - s.wall;
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    const auto take = [&](double x, double around) {
        const double up = std::cos(around / s.radius + water.datum + water.roll);
        const double height = x * std::sin(water.pitch) + inside * up * std::cos(water.pitch);
        low = std::min(low, height);
        high = std::max(high, height);
    };
    for (const auto& [x, y] : outlineOf(one, s)) {
        take(x, -y);
    }
    if (!one.round) { // an end that runs over the top or the bottom of the shell is highest or lowest there
        const double half = s.girth() / 2;
        const double top = std::remainder(-(water.datum + water.roll), 2 * kPi) * s.radius;
        for (double place = top - 4 * half; place <= one.lines.aroundTo; place += half) {
            if (place >= one.lines.around) {
                take(one.lines.along, place);
                take(one.lines.alongTo, place);
            }
        }
    }
    return {low, high};
}

} // namespace

tl::expected<WaterRead, Error> readWater(
    const Json& inputs, const vessel::Shell& shell, const MarkOutSettings& s, const std::vector<FeatureRead>& features, Result& out)
{
    const auto pose = readPose(inputs);
    const auto depth = pose ? readDepth(inputs, "water_depth", shell, pose->pitch) : tl::unexpected(pose.error());
    if (!depth) {
        return tl::unexpected(depth.error());
    }
    const Json* const datum = inputs.find("datum");
    WaterRead water{datum == nullptr ? 0 : numberAt(*datum, "clock", 0), pose->pitch.value(), pose->roll.value(), {}};
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("outside_diameter_m", shell.outsideDiameter().get().value());
    set("shell_length_m", shell.length().value());
    set("datum_deg", water.datum * 180 / kPi);
    set("pitch_deg", water.pitch * 180 / kPi);
    set("roll_deg", water.roll * 180 / kPi);
    if (!*depth) {
        return water;
    }
    water.level = (*depth)->value();
    set("water_level_m", *water.level);
    if (out.values.find("cuts") == nullptr) {
        return water;
    }
    Json rows = Json::array();
    for (const FeatureRead& one : features) {
        if (!layout::isCut(one.kind)) {
            continue;
        }
        const auto [low, high] = heightsOf(one, s, water);
        Json row = Json::object();
        row.set("cut", one.name).set("lowest_over_water_m", Json::real(low - *water.level));
        row.set("highest_over_water_m", Json::real(high - *water.level));
        row.set("place", low >= *water.level ? "over" : high <= *water.level ? "under" : "across");
        rows.items.push_back(std::move(row));
    }
    out.values.set("cuts_and_water", std::move(rows));
    return water;
}

} // namespace brimful::figure
