#include "core/gas/thresholds.h"

#include <algorithm>
#include <array>

namespace brimful::gas {

namespace {

// A rounding of a reading, far below what any meter shows.
constexpr double kRounding = 1e-9;

constexpr std::array kPublished{
    Threshold{"isgott-hot-work", Work::HotWork, 0.01, true, {}, "ISGOTT: hot work in a compartment", Mark::Found},
    Threshold{"imo-entry", Work::Entry, 0.01, true, {}, "IMO recommendations for entering enclosed spaces, 7.2", Mark::Found},
    Threshold{"ontario-hot-work", Work::HotWork, 0.05, false, {}, "Ontario Reg. 632/05 s. 1, 19(4)", Mark::Found},
    Threshold{"victoria-work", Work::Entry, 0.05, false, 0.10, "Victoria OHS Regulations 2007 r. 3.4.11", Mark::Found},
    Threshold{"osha-alternate-entry", Work::Entry, 0.05, true, {}, "58 FR 4462, p. 4488 (29 CFR 1910.146(c)(5))", Mark::Found},
    Threshold{"osha-1915-13", Work::ColdWork, 0.10, false, {}, "29 CFR 1915.13", Mark::Found},
    Threshold{"osha-1915-14", Work::HotWork, 0.10, false, {}, "29 CFR 1915.14(b), as a city's guide relays it", Mark::Found},
    Threshold{"osha-1910-146", Work::Entry, 0.10, true, {}, "29 CFR 1910.146(b)", Mark::Found},
    Threshold{"army-od0017", Work::HotWork, 0.14, true, {}, "US Army OD0017, after 15 minutes closed", Mark::Found},
};

} // namespace

std::span<const Threshold> publishedThresholds() { return kPublished; }

const Threshold* thresholdOf(std::string_view id)
{
    const auto found = std::ranges::find(kPublished, id, &Threshold::id);
    return found == kPublished.end() ? nullptr : &*found;
}

Verdict compare(const Threshold& threshold, double of_limit)
{
    const double most = threshold.included ? threshold.share + kRounding : threshold.share - kRounding;
    if (of_limit <= most) {
        return Verdict::Within;
    }
    return threshold.monitored && of_limit < *threshold.monitored - kRounding ? Verdict::OnlyMonitored : Verdict::Beyond;
}

bool isSmallVessel(const quantity::Volume& volume) { return volume.value() < kSmallVessel_m3; }

} // namespace brimful::gas
