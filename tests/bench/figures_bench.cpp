// How long the figures take that a hand waits for, asked as they are asked: JSON in, values and picture out.
#include "core/figure/figure.h"
#include "core/water/fill.h"
#include "core/water/level.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <numbers>
#include <string>
#include <vector>

namespace {

using namespace brimful;

constexpr const char* kVessel =
    R"("vessel":{"outside_diameter":"30 in","wall":"0.25 in","overall_length":"92 in","heads":"HEADS","stamped_capacity":"250 galUS"})";
constexpr const char* kOpenings = R"("openings":[
  {"name":"A","from_left_tangent":"31 in","clock":"0 deg","bore":"2 in","projection":"0 in","state":"open"},
  {"name":"B","from_left_tangent":"50 in","clock":"30 deg","bore":"0.75 in","projection":"0.5 in","state":"open"},
  {"name":"C","from_left_tangent":"12 in","clock":"180 deg","bore":"1 in","projection":"0 in","state":"plugged"}])";

canon::Json question(const std::string& heads, const std::string& rest)
{
    std::string text = std::string("{") + kVessel + rest + "}";
    text.replace(text.find("HEADS"), 5, heads);
    return canon::read(text, canon::Dialect::Any).value();
}

void ask(benchmark::State& state, const char* name, const canon::Json& inputs)
{
    const figure::Figure& figure = *figure::byName(name);
    for (auto _ : state) {
        auto result = figure::compute(figure, inputs, {});
        if (!result) {
            state.SkipWithError(result.error().path.c_str());
            break;
        }
        benchmark::DoNotOptimize(result);
    }
}

void levelFigure(benchmark::State& state, const char* heads, const char* rest) { ask(state, "level", question(heads, rest)); }
void waterFill(benchmark::State& state)
{
    ask(state, "water-fill", question("hemispherical", std::string(R"(,"pose":{"pitch":"2 deg"},)") + kOpenings));
}
void bestPose(benchmark::State& state) { ask(state, "best-pose", question("hemispherical", std::string(",") + kOpenings)); }

void asked(benchmark::State& state, const char* name, const char* json)
{
    ask(state, name, canon::read(json, canon::Dialect::Any).value());
}

constexpr const char* kMarkOut = R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in",
  "heads": "hemispherical"}, "kerf": "3 mm", "strap": "1 in", "water_depth": "9 in", "features": [
  {"name": "door", "kind": "door", "from_left_tangent": "8 in", "length": "36 in", "around": "12 in", "width": "24 in",
   "corner_radius": "2 in", "hinge_side": "second-line"},
  {"name": "hole", "kind": "round-cut-out", "from_left_tangent": "54 in", "clock": "0 deg", "diameter": "8 in"},
  {"name": "seam", "kind": "seam", "around": "66 in"},
  {"name": "A", "kind": "nozzle", "from_left_tangent": "25 in", "around": "8 in", "diameter": "3 in"},
  {"name": "B", "kind": "nozzle", "from_left_tangent": "45 in", "around": "2 in", "diameter": "3 in"}]})";
constexpr const char* kPipeOnShell =
    R"({"kind": "pipe-to-cylinder", "pipe_diameter": "10 in", "cylinder_diameter": "30 in", "angle": "55 deg", "offset": "3 in"})";
constexpr const char* kPipeOnHead =
    R"({"kind": "pipe-to-head", "head": "right", "pipe_diameter": "10 in", "offset": "5 in", "angle": "20 deg",
  "vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in", "heads": "torispherical"}})";
constexpr const char* kTwoHeads =
    R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "24 in", "distance": "22 in"})";
constexpr const char* kHeadInSide =
    R"({"kind": "sphere-to-cylinder", "sphere_diameter": "24 in", "cylinder_diameter": "30 in", "distance": "22 in"})";
constexpr const char* kStack = R"({"height": "8 ft", "diameter": "8 in", "gas_temperature": "300 degF", "air_temperature": "70 degF",
  "loss_factor": 4, "heat_loss": "7.4 W/m2K", "compare": [{"diameter": "6 in"}, {"diameter": "10 in"}],
  "path": [{"name": "inlet", "area": "60 in2"}], "liner": {"shell_inside_diameter": "29.5 in", "outside_diameter": "24 in"}})";

// The integral alone, without reading and drawing.
void below(benchmark::State& state)
{
    const auto metres = [](double inches) { return quantity::metres(inches * 0.0254); };
    const vessel::HeadSize head{vessel::HeadKind::Torispherical, 1.0, 0.06, std::nullopt};
    const auto shell =
        vessel::Shell::make({quantity::OutsideDiameter(metres(30)), metres(0.25), vessel::OverallLength(metres(92)), head, head});
    for (auto _ : state) {
        auto result = water::below(*shell, quantity::radians(4 * std::numbers::pi / 180), metres(5));
        benchmark::DoNotOptimize(result);
    }
}

double worstOf(const std::vector<double>& times) { return *std::max_element(times.begin(), times.end()); }

BENCHMARK(below)->Repetitions(21)->ReportAggregatesOnly(true)->ComputeStatistics("max", worstOf);
BENCHMARK_CAPTURE(levelFigure, hemispherical_4deg_depth, "hemispherical", R"(,"pose":{"pitch":"4 deg"},"depth":"20 in")")
    ->Repetitions(21)
    ->ReportAggregatesOnly(true)
    ->ComputeStatistics("max", worstOf);
BENCHMARK_CAPTURE(levelFigure, torispherical_4deg_depth, "torispherical", R"(,"pose":{"pitch":"4 deg"},"depth":"20 in")")
    ->Repetitions(21)
    ->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(levelFigure, torispherical_4deg_volume, "torispherical", R"(,"pose":{"pitch":"4 deg"},"volume":"150 galUS")")
    ->Repetitions(21)
    ->ReportAggregatesOnly(true);
BENCHMARK(waterFill)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, mark_out, "mark-out", kMarkOut)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, joint_pipe_on_shell, "junction", kPipeOnShell)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, joint_pipe_on_head, "junction", kPipeOnHead)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, joint_two_heads, "junction", kTwoHeads)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, joint_head_in_side, "junction", kHeadInSide)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK_CAPTURE(asked, draught, "draught", kStack)->Repetitions(21)->ReportAggregatesOnly(true);
BENCHMARK(bestPose)->Unit(benchmark::kMillisecond)->Repetitions(21)->ReportAggregatesOnly(true)->ComputeStatistics("max", worstOf);

} // namespace

BENCHMARK_MAIN();
