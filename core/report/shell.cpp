#include "core/report/shell.h"

#include "core/figure/figure.h"
#include "core/quantity/parse.h"
#include "core/quantity/recorded.h"
#include "core/report/drawn.h"

namespace brimful::report {

namespace {

std::optional<double> measured(const rules::Pack& pack, const evidence::Folded& folded, std::string_view id)
{
    const rules::Index fact = pack.fact(id);
    for (const evidence::FactShown& one : folded.shown) {
        if (one.fact == fact && one.count) {
            return quantity::siOf(*one.count, pack.facts[fact].unit);
        }
    }
    return std::nullopt;
}

std::string measuredHeads(const rules::Pack& pack, const evidence::Folded& folded)
{
    const rules::Index fact = pack.fact(drawn::kHeads);
    for (const evidence::FactShown& one : folded.shown) {
        if (one.fact == fact) {
            return one.value.text;
        }
    }
    return {};
}

double believedLength(const canon::Json& vessel, std::string_view key)
{
    const auto parsed = quantity::parse(vessel.textOf(key), quantity::Dimension::Length);
    return parsed ? parsed->si : 0.0;
}

std::string metres(double value) { return std::to_string(value) + " m"; }

// Capacity and depth of heads by the one figure that knows them.
void complete(ShellView& shell, double overall_length_m)
{
    canon::Json vessel = canon::Json::object();
    vessel.set("outside_diameter", metres(shell.outside_diameter_m)).set("wall", metres(shell.wall_m));
    if (overall_length_m > 0.0) {
        vessel.set("overall_length", metres(overall_length_m));
    } else {
        vessel.set("shell_length", metres(shell.shell_length_m));
    }
    vessel.set("left_head", shell.left_head).set("right_head", shell.right_head);
    canon::Json input = canon::Json::object();
    input.set("vessel", vessel);
    const auto result = figure::compute(*figure::byName("capacity"), input, {});
    if (!result) {
        shell.sight = Sight::Unknown;
        return;
    }
    if (const canon::Json* capacity = result->values.find("capacity_m3")) {
        shell.capacity_m3 = capacity->number;
    }
    if (const canon::Json* length = result->values.find("shell_length_m")) {
        shell.shell_length_m = length->number;
    }
}

} // namespace

ShellView shellOf(const rules::Pack& pack, const evidence::Folded& folded, const canon::Json* believed)
{
    ShellView shell;
    const auto diameter = measured(pack, folded, drawn::kOutsideDiameter);
    const auto overall = measured(pack, folded, drawn::kOverallLength);
    if (diameter && overall) {
        shell.sight = Sight::Proven;
        shell.outside_diameter_m = *diameter;
        shell.wall_m = measured(pack, folded, drawn::kWall).value_or(0.0);
        if (const std::string heads = measuredHeads(pack, folded); !heads.empty()) {
            shell.left_head = heads;
            shell.right_head = heads;
        }
        complete(shell, *overall);
        return shell;
    }
    if (believed == nullptr) {
        return shell;
    }
    shell.outside_diameter_m = believedLength(*believed, "outside_diameter");
    shell.wall_m = believedLength(*believed, "wall");
    if (shell.outside_diameter_m <= 0.0) {
        const double inside = believedLength(*believed, "inside_diameter");
        const double girth = believedLength(*believed, "girth");
        shell.outside_diameter_m = inside > 0.0 ? inside + 2.0 * shell.wall_m : girth / 3.14159265358979323846;
    }
    if (shell.outside_diameter_m <= 0.0) {
        return shell;
    }
    shell.sight = Sight::Believed;
    shell.shell_length_m = believedLength(*believed, "shell_length");
    for (const std::string_view key : {"heads", "left_head", "right_head"}) {
        const std::string head(believed->textOf(key));
        if (head.empty()) {
            continue;
        }
        if (key != "right_head") {
            shell.left_head = head;
        }
        if (key != "left_head") {
            shell.right_head = head;
        }
    }
    complete(shell, believedLength(*believed, "overall_length"));
    return shell;
}

} // namespace brimful::report
