#include "core/figure/vessel_inputs.h"

#include "core/figure/check.h"
#include "core/quantity/format.h"
#include "core/water/density.h"
#include "core/water/level.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace brimful::figure {

namespace {

using canon::Json;
using quantity::metres;
using quantity::radians;
using vessel::HeadKind;

struct OneOf {
    std::string_view key;
    double value;
};

// Exactly one of these keys; two are a contradiction, none is a gap.
tl::expected<OneOf, Error> exactlyOne(const Json& checked, std::string_view path, std::span<const std::string_view> keys)
{
    std::string all;
    std::optional<OneOf> found;
    for (const std::string_view key : keys) {
        all.append(all.empty() ? "" : ", ").append(key);
        const auto value = numberAt(checked, key);
        if (!value) {
            continue;
        }
        if (found) {
            return fail(Code::Conflicting, pathTo(path, key), all, std::string(found->key));
        }
        found = OneOf{key, *value};
    }
    return found ? tl::expected<OneOf, Error>(*found) : fail(Code::Missing, pathTo(path, keys.front()), all);
}

HeadKind kindOf(std::string_view word)
{
    // In the order of kHeads.
    constexpr std::array kKinds{HeadKind::Hemispherical, HeadKind::Ellipsoidal, HeadKind::Torispherical, HeadKind::Flat, HeadKind::Conical};
    return kKinds.at(static_cast<std::size_t>(std::ranges::find(kHeads, word) - kHeads.begin()));
}

vessel::HeadSize headSize(const Json& checked, std::string_view word)
{
    vessel::HeadSize out;
    out.kind = kindOf(word);
    if (out.kind == HeadKind::Torispherical) {
        out.crownRatio = numberAt(checked, "crown_ratio", out.crownRatio);
        out.knuckleRatio = numberAt(checked, "knuckle_ratio", out.knuckleRatio);
    }
    if (const auto depth = numberAt(checked, "depth"); depth && out.kind == HeadKind::Conical) {
        out.depth = metres(*depth);
    }
    return out;
}

tl::expected<void, Error> readHeads(const Json& checked, vessel::Size& size)
{
    const std::string_view both = checked.textOf("heads");
    const std::string_view left = checked.textOf("left_head");
    const std::string_view right = checked.textOf("right_head");
    if (!both.empty() && !(left.empty() && right.empty())) {
        return fail(
            Code::Conflicting, pathTo("vessel", left.empty() ? "right_head" : "left_head"), "heads, or left_head and right_head", "heads");
    }
    if (both.empty() && (left.empty() || right.empty())) {
        const std::string_view gap = left.empty() && right.empty() ? "heads" : left.empty() ? "left_head" : "right_head";
        return fail(Code::Missing, pathTo("vessel", gap), "heads, or left_head and right_head");
    }
    size.left = headSize(checked, both.empty() ? left : both);
    size.right = headSize(checked, both.empty() ? right : both);
    const auto has = [&](HeadKind kind) { return size.left.kind == kind || size.right.kind == kind; };
    for (const std::string_view key : {"crown_ratio", "knuckle_ratio", "depth"}) {
        const HeadKind needed = key == "depth" ? HeadKind::Conical : HeadKind::Torispherical;
        if (checked.find(key) != nullptr && !has(needed)) {
            return fail(Code::Conflicting, pathTo("vessel", key), needed == HeadKind::Conical ? "conical" : "torispherical");
        }
    }
    if (has(HeadKind::Conical) && checked.find("depth") == nullptr) {
        return fail(Code::Missing, pathTo("vessel", "depth"), "length");
    }
    return {};
}

struct Told {
    Code code;
    std::string_view expected;
};

Told told(vessel::SizeFault fault)
{
    using vessel::SizeFault;
    switch (fault) {
    case SizeFault::DiameterNotPositive:
    case SizeFault::DepthNotPositive:
        return {Code::OutOfRange, "above 0"};
    case SizeFault::WallNegative:
    case SizeFault::LengthNegative:
        return {Code::OutOfRange, "0 or more"};
    case SizeFault::WallTooThick:
        return {Code::Impossible, "below half of the outside diameter"};
    case SizeFault::OverallShorterThanHeads:
        return {Code::Impossible, "at least both heads and walls"};
    case SizeFault::NothingInside:
        return {Code::Impossible, "above 0"};
    case SizeFault::CrownTooFlatOrSmall:
        return {Code::OutOfRange, "above 0.5, below 10"};
    case SizeFault::KnuckleTooLarge:
        return {Code::OutOfRange, "0 or more, below 0.5"};
    case SizeFault::TooLarge:
        return {Code::OutOfRange, "below 100 m"};
    }
    return {Code::Impossible, {}};
}

std::string_view keyOf(const Json& checked, const vessel::SizeError& error)
{
    using vessel::SizeFault;
    const auto given = [&](std::initializer_list<std::string_view> keys) {
        const auto* const found = std::ranges::find_if(keys, [&](std::string_view key) { return checked.find(key) != nullptr; });
        return found == keys.end() ? *keys.begin() : *found;
    };
    switch (error.part) {
    case vessel::SizePart::Around:
        return given({"outside_diameter", "inside_diameter", "girth"});
    case vessel::SizePart::Wall:
        return "wall";
    case vessel::SizePart::Along:
        return given({"overall_length", "shell_length"});
    case vessel::SizePart::LeftHead:
    case vessel::SizePart::RightHead:
        if (error.fault == SizeFault::DepthNotPositive) {
            return "depth";
        }
        return error.fault == SizeFault::CrownTooFlatOrSmall ? "crown_ratio" : "knuckle_ratio";
    }
    return {};
}

} // namespace

Error sizeError(const Json& checkedVessel, const vessel::SizeError& error)
{
    const Told words = told(error.fault);
    const std::string_view key = keyOf(checkedVessel, error);
    const auto value = numberAt(checkedVessel, key);
    const auto dimension = key.ends_with("_ratio") ? Dimension::Number : Dimension::Length;
    return {pathTo("vessel", key), words.code, std::string(words.expected),
        value ? quantity::format(*value, dimension, quantity::UnitSystem::Si) : std::string()};
}

tl::expected<VesselRead, Error> readVessel(const Json& checked)
{
    using vessel::OverallLength;
    using vessel::ShellLength;
    const Json& given = *checked.find("vessel");
    constexpr std::array<std::string_view, 3> kAround{"outside_diameter", "inside_diameter", "girth"};
    constexpr std::array<std::string_view, 2> kAlong{"overall_length", "shell_length"};
    const auto around = exactlyOne(given, "vessel", kAround);
    if (!around) {
        return tl::unexpected(around.error());
    }
    const auto along = exactlyOne(given, "vessel", kAlong);
    if (!along) {
        return tl::unexpected(along.error());
    }
    const auto wall = numberAt(given, "wall");
    const bool insideOnly = around->key == "inside_diameter" && along->key == "shell_length";
    if (!wall && !insideOnly) {
        return fail(Code::Missing, "vessel.wall", "length");
    }
    vessel::Size size{
        quantity::OutsideDiameter(metres(around->value)), metres(wall.value_or(0)), ShellLength(metres(along->value)), {}, {}};
    if (around->key == "inside_diameter") {
        size.around = quantity::InsideDiameter(metres(around->value));
    } else if (around->key == "girth") {
        size.around = vessel::Girth(metres(around->value));
    }
    if (along->key == "overall_length") {
        size.along = OverallLength(metres(along->value));
    }
    if (const auto heads = readHeads(given, size); !heads) {
        return tl::unexpected(heads.error());
    }
    const auto shell = vessel::Shell::make(size);
    if (!shell) {
        return tl::unexpected(sizeError(given, shell.error()));
    }
    VesselRead out{size, *shell, wall.has_value(), std::nullopt};
    if (const auto stamped = numberAt(given, "stamped_capacity"); stamped) {
        if (!(*stamped > 0)) {
            return fail(Code::OutOfRange, "vessel.stamped_capacity", "above 0", "0 L");
        }
        out.stamped = quantity::cubicMetres(*stamped);
    }
    return out;
}

tl::expected<vessel::Pose, Error> readPose(const Json& checked)
{
    const Json* const pose = checked.find("pose");
    const double pitch = pose == nullptr ? 0 : numberAt(*pose, "pitch", 0);
    const double roll = pose == nullptr ? 0 : numberAt(*pose, "roll", 0);
    if (!(std::abs(pitch) <= std::numbers::pi / 2 * (1 + 1e-12))) {
        return fail(
            Code::OutOfRange, "pose.pitch", "-90 deg to 90 deg", quantity::format(pitch, Dimension::Angle, quantity::UnitSystem::Si));
    }
    return vessel::Pose{radians(pitch), radians(roll)};
}

tl::expected<water::Place, Error> readPlace(const Json& item, const std::string& path)
{
    const std::string_view head = item.textOf("head");
    const auto along = numberAt(item, "from_left_tangent");
    const auto pole = numberAt(item, "from_pole_deg");
    const auto axis = numberAt(item, "from_axis");
    const auto clock = numberAt(item, "clock");
    water::Place out{water::OnShell{metres(along.value_or(0))}, radians(clock.value_or(0))};
    if (head.empty()) {
        if (pole || axis) {
            return fail(Code::Missing, pathTo(path, "head"), "left, right");
        }
        if (!along) {
            return fail(Code::Missing, pathTo(path, "from_left_tangent"), "length");
        }
    } else {
        if (along) {
            return fail(Code::Conflicting, pathTo(path, "from_left_tangent"), "from_pole_deg, from_axis", "head");
        }
        if (pole.has_value() == axis.has_value()) {
            return fail(
                pole ? Code::Conflicting : Code::Missing, pathTo(path, pole ? "from_axis" : "from_pole_deg"), "from_pole_deg, from_axis");
        }
        water::OnHead on{head == "left" ? vessel::Side::Left : vessel::Side::Right, metres(axis.value_or(0))};
        if (pole) {
            on.from = radians(*pole);
        }
        out.on = on;
    }
    const bool atThePole = !head.empty() && pole.value_or(0) == 0 && axis.value_or(0) == 0;
    if (!clock && !atThePole) {
        return fail(Code::Missing, pathTo(path, "clock"), "angle");
    }
    return out;
}

Error placeError(water::PlaceFault fault, const Json& item, const std::string& path)
{
    using water::PlaceFault;
    const std::string_view onHead = item.find("from_axis") != nullptr ? "from_axis" : "from_pole_deg";
    switch (fault) {
    case PlaceFault::OffTheShell:
        return {pathTo(path, "from_left_tangent"), Code::OutOfRange, "0 to the shell length", {}};
    case PlaceFault::OffTheHead:
        return {pathTo(path, onHead), Code::OutOfRange, "on the head", {}};
    case PlaceFault::NoHeadThere:
        return {pathTo(path, onHead), Code::Impossible, "from_axis", {}};
    }
    return {path, Code::Impossible, {}, {}};
}

quantity::Density readDensity(const Json& checked, std::vector<std::string>& warnings)
{
    const auto temperature = numberAt(checked, "water_temperature");
    if (const auto density = temperature ? water::density(quantity::Temperature(*temperature)) : std::nullopt) {
        return *density;
    }
    if (temperature) {
        warnings.emplace_back(kOutsideDensity);
    }
    warnings.emplace_back(kDensityAssumed);
    return 1000.0 * boost::units::si::kilogram / boost::units::si::cubic_metre;
}

tl::expected<std::optional<double>, Error> positive(const Json& item, std::string_view key, Dimension dimension, const std::string& path)
{
    const auto value = numberAt(item, key);
    if (value && !(*value > 0)) {
        return fail(Code::OutOfRange, pathTo(path, key), "above 0", quantity::format(*value, dimension, quantity::UnitSystem::Si));
    }
    return value;
}

tl::expected<std::optional<double>, Error> readDischarge(const Json& item, const std::string& path)
{
    const auto value = numberAt(item, "discharge");
    if (value && !(*value > 0 && *value <= 1)) {
        return fail(Code::OutOfRange, pathTo(path, "discharge"), "above 0, at most 1",
            quantity::format(*value, Dimension::Number, quantity::UnitSystem::Si));
    }
    return value;
}

tl::expected<std::optional<quantity::Length>, Error> readDepth(
    const Json& checked, std::string_view key, const vessel::Shell& shell, quantity::Angle pitch)
{
    const auto depth = numberAt(checked, key);
    if (!depth) {
        return std::optional<quantity::Length>();
    }
    const quantity::Length lowest = water::lowestPoint(shell, pitch);
    const double most = (water::highestPoint(shell, pitch) - lowest).value();
    if (!(*depth >= 0 && *depth <= most * (1 + 1e-9))) {
        return fail(*depth < 0 ? Code::OutOfRange : Code::Impossible, std::string(key),
            "0 to " + quantity::format(most, Dimension::Length, quantity::UnitSystem::Si),
            quantity::format(*depth, Dimension::Length, quantity::UnitSystem::Si));
    }
    return std::optional(lowest + metres(std::min(*depth, most)));
}

namespace {

Error openingError(water::OpeningFault fault, const Json& item, const std::string& path)
{
    using water::OpeningFault;
    const std::string_view onHead = item.find("from_axis") != nullptr ? "from_axis" : "from_pole_deg";
    switch (fault) {
    case OpeningFault::OffTheShell:
        return {pathTo(path, "from_left_tangent"), Code::OutOfRange, "0 to the shell length", {}};
    case OpeningFault::OffTheHead:
        return {pathTo(path, onHead), Code::OutOfRange, "on the head", {}};
    case OpeningFault::NoHeadThere:
        return {pathTo(path, onHead), Code::Impossible, "from_axis", {}};
    case OpeningFault::BoreNegative:
        return {pathTo(path, "bore"), Code::OutOfRange, "0 or more", {}};
    case OpeningFault::BoreTooLarge:
        return {pathTo(path, "bore"), Code::Impossible, "below the inside diameter", {}};
    case OpeningFault::ProjectionNegative:
        return {pathTo(path, "projection"), Code::OutOfRange, "0 or more", {}};
    case OpeningFault::ProjectionTooLong:
        return {pathTo(path, "projection"), Code::Impossible, "inside the vessel", {}};
    case OpeningFault::NeckNegative:
        return {pathTo(path, "neck"), Code::OutOfRange, "0 or more", {}};
    case OpeningFault::MouthOffTheVessel:
        return {pathTo(path, "snorkel"), Code::Impossible, "inside the vessel", {}};
    }
    return {path, Code::Impossible, {}, {}};
}

void noteOnce(std::vector<std::string>& warnings, std::string_view warning)
{
    if (std::ranges::find(warnings, warning) == warnings.end()) {
        warnings.emplace_back(warning);
    }
}

tl::expected<water::Opening, Error> readOpening(const Json& item, const std::string& path, std::vector<std::string>& warnings)
{
    const auto place = readPlace(item, path);
    if (!place) {
        return tl::unexpected(place.error());
    }
    water::Opening out{std::string(item.textOf("name")), *place, metres(numberAt(item, "bore", 0)), metres(numberAt(item, "projection", 0)),
        metres(numberAt(item, "neck", 0)), item.textOf("state") != "plugged", std::nullopt};
    if (out.name.empty()) {
        return fail(Code::OutOfRange, pathTo(path, "name"), "text", "");
    }
    if (out.open) {
        for (const auto& [key, warning] :
            {std::pair("bore", kBoreAssumed), std::pair("projection", kProjectionAssumed), std::pair("state", kStateAssumed)}) {
            if (item.find(key) == nullptr) {
                noteOnce(warnings, warning);
            }
        }
    }
    if (const Json* const tube = item.find("snorkel"); tube != nullptr) {
        const water::Place mouth{water::OnShell{metres(numberAt(*tube, "from_left_tangent", 0))}, radians(numberAt(*tube, "clock", 0))};
        out.snorkel = water::Snorkel{mouth, metres(numberAt(*tube, "below_wall", 0)), flagAt(*tube, "packed")};
    }
    return out;
}

} // namespace

tl::expected<std::optional<OpeningsRead>, Error> readOpenings(const Json& checked, const vessel::Shell& shell)
{
    const Json* const given = checked.find("openings");
    if (given == nullptr) {
        return std::optional<OpeningsRead>();
    }
    OpeningsRead out;
    std::set<std::string> names;
    for (std::size_t i = 0; i < given->items.size(); ++i) {
        const std::string path = "openings[" + std::to_string(i) + "]";
        auto opening = readOpening(given->items[i], path, out.warnings);
        if (!opening) {
            return tl::unexpected(opening.error());
        }
        if (!names.insert(opening->name).second) {
            return fail(Code::Conflicting, pathTo(path, "name"), "one name each", opening->name);
        }
        const auto mouth = water::Mouth::make(shell, *opening);
        if (!mouth) {
            return tl::unexpected(openingError(mouth.error(), given->items[i], path));
        }
        if (opening->open) {
            out.open.push_back(*mouth);
            out.which.push_back(i);
        }
        out.openings.push_back(std::move(*opening));
    }
    return std::optional(std::move(out));
}

} // namespace brimful::figure
