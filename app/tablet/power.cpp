#include "app/tablet/power.h"

#include <charconv>
#include <cstdlib>
#include <fstream>
#include <string>
#include <system_error>

namespace brimful::tablet {

namespace {

// The one line of such a file; "" where it is not there.
std::string lineOf(const std::filesystem::path& file)
{
    std::ifstream in(file);
    std::string line;
    std::getline(in, line);
    return line;
}

std::optional<int> percentOf(const std::filesystem::path& supply)
{
    const std::string line = lineOf(supply / "capacity");
    int percent = 0;
    const auto [end, error] = std::from_chars(line.data(), line.data() + line.size(), percent);
    const bool whole = error == std::errc() && end == line.data() + line.size();
    return whole && percent >= 0 && percent <= 100 ? std::optional(percent) : std::nullopt;
}

// A mouse's or a scanner's battery runs nothing here; an empty bay is none.
bool runsTheMachine(const std::filesystem::path& supply)
{
    return lineOf(supply / "type") == "Battery" && lineOf(supply / "scope") != "Device" && lineOf(supply / "present") != "0";
}

} // namespace

std::filesystem::path powerFolder()
{
    const char* named = std::getenv("BRIMFUL_POWER"); // NOLINT(concurrency-mt-unsafe): nothing here sets the environment
    return named != nullptr && *named != '\0' ? named : "/sys/class/power_supply";
}

std::optional<Battery> readBattery(const std::filesystem::path& folder)
{
    int count = 0;
    int sum = 0;
    bool drains = false;
    bool fed = false;
    std::error_code error;
    for (std::filesystem::directory_iterator one(folder, error); !error && one != std::filesystem::directory_iterator();
         one.increment(error)) {
        if (!runsTheMachine(one->path())) {
            continue;
        }
        const auto percent = percentOf(one->path());
        if (!percent) {
            return std::nullopt;
        }
        ++count;
        sum += *percent;
        const std::string status = lineOf(one->path() / "status");
        drains = drains || status == "Discharging";
        fed = fed || status == "Charging" || status == "Full" || status == "Not charging";
    }
    if (count == 0 || error || (!drains && !fed)) {
        return std::nullopt;
    }
    return Battery{sum / count, !drains};
}

} // namespace brimful::tablet
