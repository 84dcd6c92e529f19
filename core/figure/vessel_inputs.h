// The vessel, its pose and its openings, as all figures about vessels take them. Inside this room only.
#pragma once

#include "core/figure/figure.h"
#include "core/vessel/shell.h"
#include "core/water/opening.h"

#include <array>
#include <optional>

namespace brimful::figure {

inline constexpr std::array<std::string_view, 5> kHeads{"hemispherical", "ellipsoidal-2-1", "torispherical", "flat", "conical"};
inline constexpr std::array<std::string_view, 2> kSides{"left", "right"};
inline constexpr std::array<std::string_view, 2> kStates{"open", "plugged"};

inline constexpr std::array kVesselInputs{
    Input{"outside_diameter", InputKind::Quantity, Dimension::Length},
    Input{"inside_diameter", InputKind::Quantity, Dimension::Length},
    Input{"girth", InputKind::Quantity, Dimension::Length},
    Input{"wall", InputKind::Quantity, Dimension::Length}, // may only be missing with inside diameter and shell length
    Input{"overall_length", InputKind::Quantity, Dimension::Length},
    Input{"shell_length", InputKind::Quantity, Dimension::Length},
    Input{.key = "heads", .kind = InputKind::Choice, .choices = kHeads},
    Input{.key = "left_head", .kind = InputKind::Choice, .choices = kHeads},
    Input{.key = "right_head", .kind = InputKind::Choice, .choices = kHeads},
    Input{"crown_ratio", InputKind::Number},
    Input{"knuckle_ratio", InputKind::Number},
    Input{"depth", InputKind::Quantity, Dimension::Length}, // of conical heads
    Input{"stamped_capacity", InputKind::Quantity, Dimension::Volume},
};

inline constexpr std::array kPoseInputs{
    Input{"pitch", InputKind::Quantity, Dimension::Angle},
    Input{"roll", InputKind::Quantity, Dimension::Angle},
};

inline constexpr std::array kSnorkelInputs{
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length, true}, Input{"clock", InputKind::Quantity, Dimension::Angle, true},
    Input{"below_wall", InputKind::Quantity, Dimension::Length, true},
    Input{"packed", InputKind::Flag}, // the gap around the tube is closed
};

inline constexpr std::array kOpeningInputs{
    Input{.key = "name", .kind = InputKind::Text, .required = true},
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length},
    Input{.key = "head", .kind = InputKind::Choice, .choices = kSides},
    Input{"from_pole_deg", InputKind::Quantity, Dimension::Angle},
    Input{"from_axis", InputKind::Quantity, Dimension::Length},
    Input{"clock", InputKind::Quantity, Dimension::Angle},
    Input{"bore", InputKind::Quantity, Dimension::Length},
    Input{"projection", InputKind::Quantity, Dimension::Length},
    Input{"neck", InputKind::Quantity, Dimension::Length},
    Input{.key = "state", .kind = InputKind::Choice, .choices = kStates},
    Input{.key = "snorkel", .kind = InputKind::Object, .inside = kSnorkelInputs},
};

// A place on the wall: on the shell, or on a head.
inline constexpr std::array kPlaceInputs{
    Input{"from_left_tangent", InputKind::Quantity, Dimension::Length},
    Input{.key = "head", .kind = InputKind::Choice, .choices = kSides},
    Input{"from_pole_deg", InputKind::Quantity, Dimension::Angle},
    Input{"from_axis", InputKind::Quantity, Dimension::Length},
    Input{"clock", InputKind::Quantity, Dimension::Angle},
};

inline constexpr Input kVesselInput{.key = "vessel", .kind = InputKind::Object, .required = true, .inside = kVesselInputs};
inline constexpr Input kPoseInput{.key = "pose", .kind = InputKind::Object, .inside = kPoseInputs};
inline constexpr Input kOpeningsInput{.key = "openings", .kind = InputKind::List, .inside = kOpeningInputs};

// What an opening does not say and a worst case cannot be told of: named as a warning.
inline constexpr std::string_view kBoreAssumed = "bore-taken-as-0";
inline constexpr std::string_view kProjectionAssumed = "projection-taken-as-0";
inline constexpr std::string_view kStateAssumed = "state-taken-as-open";

// Water at no temperature, or at one for which there is no formula, is taken a little too heavy.
inline constexpr std::string_view kDensityAssumed = "water-density-taken-as-1000-kg-m3";
inline constexpr std::string_view kOutsideDensity = "water-temperature-outside-0-to-40-degC";
inline constexpr std::string_view kVentAssumed = "vent-taken-as-open";

struct VesselRead {
    vessel::Size size;
    vessel::Shell shell;
    bool wallGiven{};
    std::optional<quantity::Volume> stamped;
};

[[nodiscard]] tl::expected<VesselRead, Error> readVessel(const canon::Json& checked);
[[nodiscard]] Error sizeError(const canon::Json& checkedVessel, const vessel::SizeError&);

// Level and upright at roll 0 when there is no pose. Pitch beyond +-90 degrees is refused.
[[nodiscard]] tl::expected<vessel::Pose, Error> readPose(const canon::Json& checked);

// A place of an item whose keys are those of kPlaceInputs; a head's pole needs no clock.
[[nodiscard]] tl::expected<water::Place, Error> readPlace(const canon::Json& item, const std::string& path);
[[nodiscard]] Error placeError(water::PlaceFault, const canon::Json& item, const std::string& path);

// By "water_temperature", at most 1000 kg/m3; adds the warning when it is assumed.
[[nodiscard]] quantity::Density readDensity(const canon::Json& checked, std::vector<std::string>& warnings);

// A discharge coefficient, above 0 and at most 1; nothing when not given.
[[nodiscard]] tl::expected<std::optional<double>, Error> readDischarge(const canon::Json& item, const std::string& path);
// A number that must be above 0; nothing when not given.
[[nodiscard]] tl::expected<std::optional<double>, Error> positive(
    const canon::Json& item, std::string_view key, Dimension, const std::string& path);
// A depth above the lowest point of the inside, as a height of water/level.h; nothing when not given.
[[nodiscard]] tl::expected<std::optional<quantity::Length>, Error> readDepth(
    const canon::Json& checked, std::string_view key, const vessel::Shell&, quantity::Angle pitch);

struct OpeningsRead {
    std::vector<water::Opening> openings; // in the order given
    std::vector<water::Mouth> open; // mouths of the open ones ...
    std::vector<std::size_t> which; // ... and their places among `openings`
    std::vector<std::string> warnings;
};

// Nothing when no openings were given at all.
[[nodiscard]] tl::expected<std::optional<OpeningsRead>, Error> readOpenings(const canon::Json& checked, const vessel::Shell&);

} // namespace brimful::figure
