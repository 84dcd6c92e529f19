// How full this machine's battery is, by the files in which its kernel says so.
#pragma once

#include <filesystem>
#include <optional>

namespace brimful::tablet {

struct Battery {
    int percent{}; // 0 to 100; of several the mean
    bool plugged{}; // power comes from outside
    bool operator==(const Battery&) const = default;
};

// Under this a hold point names it as a reason to wait; under that a running clock asks for the plug. Neither is a rule.
// From the design. Mark: proposal, nobody measured how long this tablet runs on what is left.
inline constexpr int kWaitBelow = 20; // per cent
inline constexpr int kPlugInBelow = 10;

// $BRIMFUL_POWER, else the kernel's own folder.
[[nodiscard]] std::filesystem::path powerFolder();
// Of all batteries that run the machine. Nothing: there is none, or what one of them says can't be read.
// Source of the files and their words: Linux, Documentation/ABI/testing/sysfs-class-power.
[[nodiscard]] std::optional<Battery> readBattery(const std::filesystem::path& folder);

} // namespace brimful::tablet
