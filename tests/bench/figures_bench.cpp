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
BENCHMARK(bestPose)->Unit(benchmark::kMillisecond)->Repetitions(21)->ReportAggregatesOnly(true)->ComputeStatistics("max", worstOf);

} // namespace

BENCHMARK_MAIN();
