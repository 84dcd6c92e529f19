// How much stands in a vessel at a depth, or how deep a volume stands.
#include "core/water/level.h"

#include "core/figure/check.h"
#include "core/figure/figures.h"
#include "core/figure/picture.h"
#include "core/figure/vessel_inputs.h"
#include "core/quantity/format.h"

#include <algorithm>
#include <cmath>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::UnitSystem;

constexpr std::array kInputs{kVesselInput, kPoseInput, Input{"depth", InputKind::Quantity, Dimension::Length},
    Input{"volume", InputKind::Quantity, Dimension::Volume},
    Input{"stick", InputKind::Quantity, Dimension::Length}}; // where one hangs plumb through the top line, from the left tangent

constexpr std::array kOutputs{
    Output{"volume_m3", Dimension::Volume},
    Output{"depth_m", Dimension::Length},
    Output{"fraction", Dimension::Number},
    Output{"stick_reads_m", Dimension::Length}, // wetted length; 0 where the water does not reach its foot
    Output{"free_surface_m2", Dimension::Area},
    Output{"centroid_from_left_tangent_m", Dimension::Length},
    Output{"capacity_m3", Dimension::Volume},
};

// The height that was asked for, above the axis at the left tangent line.
tl::expected<quantity::Length, Error> heightOf(const Json& inputs, const vessel::Shell& shell, quantity::Angle pitch)
{
    const auto depth = numberAt(inputs, "depth");
    const auto volume = numberAt(inputs, "volume");
    if (depth.has_value() == volume.has_value()) {
        return fail(depth ? Code::Conflicting : Code::Missing, depth ? "volume" : "depth", "depth, volume");
    }
    if (volume) {
        // A last bit beyond the capacity, as it comes of typing the capacity back, is the capacity.
        if (!(*volume <= shell.capacity().value() * (1 + 1e-9))) {
            return fail(Code::Impossible, "volume",
                "at most " + quantity::format(shell.capacity().value(), Dimension::Volume, UnitSystem::Si),
                quantity::format(*volume, Dimension::Volume, UnitSystem::Si));
        }
        return water::heightFor(shell, pitch, quantity::cubicMetres(*volume));
    }
    const auto height = readDepth(inputs, "depth", shell, pitch);
    return height ? tl::expected<quantity::Length, Error>(**height) : tl::unexpected(height.error());
}

tl::expected<std::optional<quantity::Length>, Error> stickAt(const Json& inputs, const vessel::Shell& shell)
{
    const auto at = numberAt(inputs, "stick");
    if (at && !(*at >= 0 && *at <= shell.length().value())) {
        return fail(Code::OutOfRange, "stick", "0 to " + quantity::format(shell.length().value(), Dimension::Length, UnitSystem::Si),
            quantity::format(*at, Dimension::Length, UnitSystem::Si));
    }
    return at ? std::optional(quantity::metres(*at)) : std::nullopt;
}

tl::expected<Result, Error> compute(const Json& inputs, const Reference&)
{
    const auto read = readVessel(inputs);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const auto pose = readPose(inputs);
    if (!pose) {
        return tl::unexpected(pose.error());
    }
    const vessel::Shell& shell = read->shell;
    const auto height = heightOf(inputs, shell, pose->pitch);
    if (!height) {
        return tl::unexpected(height.error());
    }
    const water::Below below = water::below(shell, pose->pitch, *height);
    if (!(below.uncertainty.value() <= 1e-8 * shell.capacity().value())) {
        return fail(Code::NotConverged, {});
    }
    Result out;
    const auto set = [&](std::string_view key, double value) { out.values.set(std::string(key), Json::real(value)); };
    set("volume_m3", below.volume.value());
    set("depth_m", (*height - water::lowestPoint(shell, pose->pitch)).value());
    set("fraction", below.volume.value() / shell.capacity().value());
    set("free_surface_m2", below.surface.value());
    if (below.volume.value() > 0) {
        set("centroid_from_left_tangent_m", below.centroid.value());
    }
    set("capacity_m3", shell.capacity().value());
    out.picture = longSection(shell, *pose, *height, {});
    const auto stick = stickAt(inputs, shell);
    if (!stick) {
        return tl::unexpected(stick.error());
    }
    if (*stick) {
        const quantity::Length foot = water::bottomUnder(shell, pose->pitch, **stick);
        set("stick_reads_m", std::max(0.0, (*height - foot).value()));
        const double radius = shell.insideDiameter().get().value() / 2;
        const double x = (*stick)->value() * std::cos(pose->pitch.value()) - radius * std::sin(pose->pitch.value());
        out.picture.push_back({"stick", false, {{x, foot.value()}, {x, water::highestPoint(shell, pose->pitch).value() + 0.4 * radius}}});
    }
    return out;
}

} // namespace

constinit const Figure kLevel{"level", 1, kInputs, kOutputs, {}, compute};

} // namespace brimful::figure
