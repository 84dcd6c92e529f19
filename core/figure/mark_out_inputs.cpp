#include "core/figure/mark_out_inputs.h"

#include "core/figure/check.h"
#include "core/layout/marks.h"
#include "core/quantity/format.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace brimful::figure {

namespace {

using canon::Json;
using layout::Kind;
using quantity::UnitSystem;

constexpr double kPi = std::numbers::pi;

std::string shown(double length) { return quantity::format(length, Dimension::Length, UnitSystem::Si); }

struct ShellSize {
    double radius;
    double length;
    double datum;
    [[nodiscard]] double girth() const { return 2 * kPi * radius; }
};

tl::expected<double, Error> lengthAbove(const Json& item, const std::string& path, std::string_view key)
{
    const auto value = numberAt(item, key);
    if (!value) {
        return fail(Code::Missing, pathTo(path, key), "length");
    }
    return *value > 0 ? tl::expected<double, Error>(*value) : fail(Code::OutOfRange, pathTo(path, key), "above 0", shown(*value));
}

// Tape from the datum line to where it begins, 0 to the girth.
tl::expected<double, Error> readAround(const Json& item, const std::string& path, const ShellSize& shell)
{
    const auto clock = numberAt(item, "clock");
    const auto around = numberAt(item, "around");
    if (clock.has_value() == around.has_value()) {
        return fail(clock ? Code::Conflicting : Code::Missing, pathTo(path, clock ? "around" : "clock"), "clock, around");
    }
    if (around) {
        return *around >= 0 && *around <= shell.girth()
            ? tl::expected<double, Error>(*around)
            : fail(Code::OutOfRange, pathTo(path, "around"), "0 to " + shown(shell.girth()) + ", the girth", shown(*around));
    }
    double turn = std::fmod(*clock - shell.datum, 2 * kPi);
    turn += turn < 0 ? 2 * kPi : 0;
    return shell.radius * (turn > 2 * kPi - 1e-12 ? 0 : turn);
}

tl::expected<double, Error> readWidth(const Json& item, const std::string& path, const ShellSize& shell)
{
    const auto to = numberAt(item, "clock_to");
    const int ways = (to ? 1 : 0) + (item.find("width") != nullptr ? 1 : 0) + (item.find("chord") != nullptr ? 1 : 0);
    if (ways != 1) {
        return fail(ways == 0 ? Code::Missing : Code::Conflicting, pathTo(path, "width"), "clock_to, width, chord");
    }
    if (to) {
        const auto from = numberAt(item, "clock");
        if (!from) {
            return fail(Code::Missing, pathTo(path, "clock"), "angle");
        }
        double turn = std::fmod(*to - *from, 2 * kPi);
        turn += turn <= 0 ? 2 * kPi : 0;
        return shell.radius * turn;
    }
    if (item.find("chord") != nullptr) {
        auto chord = lengthAbove(item, path, "chord");
        if (!chord) {
            return chord;
        }
        if (!(*chord <= 2 * shell.radius)) {
            return fail(Code::Impossible, pathTo(path, "chord"), "at most the diameter, " + shown(2 * shell.radius), shown(*chord));
        }
        return shell.radius * layout::angleOfChord(quantity::metres(shell.radius), quantity::metres(*chord));
    }
    return lengthAbove(item, path, "width");
}

tl::expected<void, Error> readRound(const Json& item, const std::string& path, const ShellSize& shell, FeatureRead& out)
{
    const auto around = readAround(item, path, shell);
    const auto diameter = lengthAbove(item, path, "diameter");
    if (!around || !diameter) {
        return tl::unexpected(!around ? around.error() : diameter.error());
    }
    for (const std::string_view key : {"length", "clock_to", "width", "chord", "corner_radius", "hinge_side"}) {
        if (item.find(key) != nullptr) {
            return fail(Code::Conflicting, pathTo(path, key), "diameter alone", std::string(key));
        }
    }
    const auto along = numberAt(item, "from_left_tangent");
    if (!along) {
        return fail(Code::Missing, pathTo(path, "from_left_tangent"), "length");
    }
    if (out.kind == Kind::RoundCutOut && !(*diameter <= 2 * shell.radius)) {
        return fail(
            Code::Impossible, pathTo(path, "diameter"), "at most the diameter of the shell, " + shown(2 * shell.radius), shown(*diameter));
    }
    out.round = true;
    out.lines = {*along, *along, *around, *around, *diameter / 2};
    return {};
}

tl::expected<void, Error> readCorner(const Json& item, const std::string& path, FeatureRead& out)
{
    const auto radius = numberAt(item, "corner_radius");
    const double most = std::min(out.lines.alongTo - out.lines.along, out.lines.aroundTo - out.lines.around) / 2;
    if (radius && !layout::isCut(out.kind)) {
        return fail(Code::Conflicting, pathTo(path, "corner_radius"), "a door or a cut-out", std::string(item.textOf("kind")));
    }
    if (radius && !(*radius >= 0 && *radius <= most)) {
        return fail(Code::OutOfRange, pathTo(path, "corner_radius"), "0 to " + shown(most), shown(*radius));
    }
    out.cornerRadius = radius.value_or(0);
    return {};
}

tl::expected<void, Error> readRectangle(const Json& item, const std::string& path, const ShellSize& shell, FeatureRead& out)
{
    const auto around = readAround(item, path, shell);
    const auto width = readWidth(item, path, shell);
    const auto length = lengthAbove(item, path, "length");
    for (const auto* const one : {&around, &width, &length}) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
    }
    const auto along = numberAt(item, "from_left_tangent");
    if (!along) {
        return fail(Code::Missing, pathTo(path, "from_left_tangent"), "length");
    }
    out.lines = {*along, *along + *length, *around, *around + *width, 0};
    if (layout::isCut(out.kind) && out.lines.aroundTo > shell.girth() * (1 + 1e-12)) {
        return fail(Code::Impossible, pathTo(path, item.find("clock") != nullptr ? "clock" : "around"),
            "clear of the datum line where the girth tape closes; take another datum",
            shown(out.lines.aroundTo - shell.girth()) + " over it");
    }
    return readCorner(item, path, out);
}

// A cut, a pad or a foot lies on the shell, a nozzle stands on it with its middle; heads are not laid out here.
tl::expected<void, Error> onTheShell(const std::string& path, const ShellSize& shell, const FeatureRead& read)
{
    const double reach = read.kind == Kind::Nozzle ? 0 : read.lines.radius;
    const double low = read.lines.along - reach;
    const double high = read.lines.alongTo + reach;
    if (low < -1e-9 || high > shell.length + 1e-9) {
        return fail(Code::OutOfRange,
            pathTo(path,
                low < -1e-9      ? "from_left_tangent"
                    : read.round ? "diameter"
                                 : "length"),
            "between the tangent lines, 0 to " + shown(shell.length), shown(low < -1e-9 ? low : high));
    }
    return {};
}

tl::expected<FeatureRead, Error> readFeature(const Json& item, const std::string& path, const ShellSize& shell)
{
    FeatureRead out;
    out.name = std::string(item.textOf("name"));
    out.kind = static_cast<Kind>(std::ranges::find(kFeatureKinds, item.textOf("kind")) - kFeatureKinds.begin());
    out.hingeSide = item.textOf("hinge_side");
    if (out.name.empty()) {
        return fail(Code::OutOfRange, pathTo(path, "name"), "text", "");
    }
    if (!out.hingeSide.empty() && out.kind != Kind::Door) {
        return fail(Code::Conflicting, pathTo(path, "hinge_side"), "a door", std::string(item.textOf("kind")));
    }
    if (out.kind == Kind::Seam) {
        const auto around = readAround(item, path, shell);
        if (!around) {
            return tl::unexpected(around.error());
        }
        out.lines = {0, shell.length, *around, *around, 0};
        return out;
    }
    if (out.kind == Kind::GirthSeam) {
        const auto along = numberAt(item, "from_left_tangent");
        if (!along) {
            return fail(Code::Missing, pathTo(path, "from_left_tangent"), "length");
        }
        out.lines = {*along, *along, 0, shell.girth(), 0};
        return out;
    }
    const bool round = out.kind == Kind::RoundCutOut || out.kind == Kind::Nozzle || item.find("diameter") != nullptr;
    const auto read = round ? readRound(item, path, shell, out) : readRectangle(item, path, shell, out);
    if (!read) {
        return tl::unexpected(read.error());
    }
    if (const auto on = onTheShell(path, shell, out); !on) {
        return tl::unexpected(on.error());
    }
    return out;
}

} // namespace

tl::expected<std::vector<FeatureRead>, Error> readFeatures(const Json& checked, const vessel::Shell& shell, double datum)
{
    const ShellSize size{shell.outsideDiameter().get().value() / 2, shell.length().value(), datum};
    std::vector<FeatureRead> out;
    std::set<std::string> names;
    const Json* const given = checked.find("features");
    for (std::size_t i = 0; given != nullptr && i < given->items.size(); ++i) {
        const std::string path = "features[" + std::to_string(i) + "]";
        auto read = readFeature(given->items[i], path, size);
        if (!read) {
            return tl::unexpected(read.error());
        }
        if (!names.insert(read->name).second) {
            return fail(Code::Conflicting, pathTo(path, "name"), "one name each", read->name);
        }
        out.push_back(std::move(*read));
    }
    return out;
}

} // namespace brimful::figure
