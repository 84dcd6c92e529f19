// The facts that the drawing shows, by their ids in the base pack. Ids are forever; a pack without one of them draws that
// part as unknown.
#pragma once

#include <string_view>

namespace brimful::report::drawn {

// steps
inline constexpr std::string_view kContents = "what-it-was";
inline constexpr std::string_view kMeasure = "measure";
inline constexpr std::string_view kOpenings = "openings";
inline constexpr std::string_view kPose = "pose";
inline constexpr std::string_view kBrim = "brim";
inline constexpr std::string_view kReadingsWet = "readings-wet";
inline constexpr std::string_view kReadingsDry = "readings-dry";
inline constexpr std::string_view kFirstOpening = "first-opening";
inline constexpr std::string_view kLettingOut = "letting-out";
inline constexpr std::string_view kFillOne = "fill-one";
inline constexpr std::string_view kFirstHeat = "first-heat";
inline constexpr std::string_view kSweep = "sweep";
inline constexpr std::string_view kHandOn = "hand-on-watch";
inline constexpr std::string_view kWatch = "fire-watch";

// facts, as step.fact
inline constexpr std::string_view kSubstance = "what-it-was.substance";
inline constexpr std::string_view kOpeningRows = "openings.register";
inline constexpr std::string_view kVent = "pose.vent";
inline constexpr std::string_view kPitch = "pose.pitch";
inline constexpr std::string_view kRoll = "pose.roll";
inline constexpr std::string_view kPocket = "brim.pocket";
inline constexpr std::string_view kWetGas = "readings-wet.set.gas";
inline constexpr std::string_view kWetOxygen = "readings-wet.set.oxygen";
inline constexpr std::string_view kDryGas = "readings-dry.set.gas";
inline constexpr std::string_view kDryOxygen = "readings-dry.set.oxygen";
inline constexpr std::string_view kSwept = "sweep.places.found";
inline constexpr std::string_view kCool = "cool"; // its word
inline constexpr std::string_view kOutsideDiameter = "measure.outside-diameter";
inline constexpr std::string_view kWall = "measure.wall";
inline constexpr std::string_view kOverallLength = "measure.overall-length";
inline constexpr std::string_view kHeads = "measure.heads";

// stops and events
inline constexpr std::string_view kWatchEnded = "watch-ended";
inline constexpr std::string_view kPersonLeft = "person-left";
inline constexpr std::string_view kMoved = "moved";

// parameters
inline constexpr std::string_view kWatchLasts = "watch-hot"; // seconds
inline constexpr std::string_view kSweepFirst = "sweep-first"; // seconds
inline constexpr std::string_view kSweepMost = "sweep-most"; // seconds

// hold points
inline constexpr std::string_view kFirstCut = "first-cut";
inline constexpr std::string_view kHotWork = "hot-work";

} // namespace brimful::report::drawn
