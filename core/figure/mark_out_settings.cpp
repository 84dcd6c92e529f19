#include "core/figure/mark_out_settings.h"

#include "core/figure/check.h"
#include "core/quantity/format.h"

namespace brimful::figure {

namespace {

constexpr double kPi = std::numbers::pi;

std::string shown(double length) { return quantity::format(length, Dimension::Length, quantity::UnitSystem::Si); }

} // namespace

tl::expected<MarkOutSettings, Error> readSettings(const canon::Json& inputs, const VesselRead& vessel, Result& out)
{
    MarkOutSettings s;
    s.radius = vessel.shell.outsideDiameter().get().value() / 2;
    s.wall = vessel.shell.wall().value();
    s.length = vessel.shell.length().value();
    constexpr double kInch = 0.0254;
    // From memory, shop practice: 2 in from a weld, 1 in from the rest, tabs of 25 to 40 mm. 1/32 in: what rounding does.
    const canon::Json none = canon::Json::object();
    const canon::Json* const given = inputs.find("clearances");
    const canon::Json& clear = given == nullptr ? none : *given;
    s.clearances = {numberAt(clear, "seam", 2 * kInch), numberAt(clear, "girth_seam", 2 * kInch), numberAt(clear, "pad", kInch),
        numberAt(clear, "nozzle", kInch), numberAt(clear, "foot", kInch), numberAt(clear, "cut", 2 * kInch)};
    s.kerf = numberAt(inputs, "kerf", 0);
    s.strap = numberAt(inputs, "strap", 0);
    s.tab = numberAt(inputs, "tab", 0.032);
    s.tolerance = numberAt(inputs, "tolerance", kInch / 32);
    const std::string_view side = inputs.textOf("kerf_side");
    s.inward = side == "inside" ? 1 : side == "outside" ? 0 : 0.5;
    for (const std::string_view key : {"kerf", "strap", "tab", "tolerance"}) {
        if (const double value = numberAt(inputs, key, 0); !(value >= 0)) {
            return fail(Code::OutOfRange, std::string(key), "0 or more", shown(value));
        }
    }
    for (const Input& one : kClearanceInputs) {
        if (const double value = numberAt(clear, one.key, 0); !(value >= 0)) {
            return fail(Code::OutOfRange, pathTo("clearances", one.key), "0 or more", shown(value));
        }
    }
    if (inputs.find("kerf") == nullptr) {
        out.warnings.emplace_back(kKerfTaken);
    }
    if (s.strap > 0 && s.strap < s.kerf) {
        return fail(Code::Impossible, "strap", "wider than the kerf", shown(s.strap));
    }
    return s;
}

double tabOf(const FeatureRead& one, const MarkOutSettings& s) { return std::max(s.tab, kPi / 2 * one.cornerRadius); }

double stopOf(const FeatureRead& one, const MarkOutSettings& s)
{
    return one.cornerRadius + (tabOf(one, s) - kPi / 2 * one.cornerRadius) / 2;
}

} // namespace brimful::figure
