// How long a verdict takes: the bare judge, a standing with its blockers, loading the base pack, and a vessel's fold.
#include "core/rules/proof.h"
#include "tests/core/evidence/story.h"
#include "tests/core/rules/evidence_of.h"
#include "tests/core/rules/packs.h"

#include <benchmark/benchmark.h>

namespace {

using namespace brimful;
using namespace brimful::test;

// 60 rules of 8 leaves over 200 facts: three of five numbers, an alternative, a word.
struct Workload {
    std::vector<rules::Condition> conditions;
    std::vector<std::size_t> starts;
    rules::Evidence evidence;
};

Workload workload()
{
    Workload out;
    std::uint16_t fact = 0;
    const auto leaf = [&](rules::Op op) {
        rules::Condition one;
        one.op = op;
        one.a = fact;
        one.low = 1;
        one.high = 100;
        fact = static_cast<std::uint16_t>((fact + 7) % 200);
        out.conditions.push_back(one);
    };
    const auto branch = [&](rules::Op op, std::uint16_t size, std::int64_t k) {
        rules::Condition one;
        one.op = op;
        one.size = size;
        one.low = k;
        out.conditions.push_back(one);
    };
    for (int rule = 0; rule < 60; ++rule) {
        out.starts.push_back(out.conditions.size());
        branch(rules::Op::All, 11, 0);
        branch(rules::Op::KOf, 6, 3);
        for (int i = 0; i < 5; ++i) {
            leaf(rules::Op::AtMost);
        }
        branch(rules::Op::Any, 3, 0);
        leaf(rules::Op::AtLeast);
        leaf(rules::Op::Between);
        leaf(rules::Op::Is);
    }
    out.evidence.now_ms = 1000;
    for (int i = 0; i < 200; ++i) {
        out.evidence.facts.push_back(held(i % 11 == 0 ? 101 : 1, 2000 + i));
    }
    return out;
}

void bareJudge(benchmark::State& state)
{
    const Workload work = workload();
    state.counters["nodes"] = static_cast<double>(work.conditions.size());
    for (auto _ : state) {
        for (const std::size_t start : work.starts) {
            benchmark::DoNotOptimize(rules::judge(std::span(work.conditions).subspan(start), work.evidence, {}));
        }
    }
}
BENCHMARK(bareJudge)->Unit(benchmark::kMicrosecond)->Repetitions(9)->ReportAggregatesOnly();

// The same judge over what it really meets: every condition of the base pack, with everything proven.
void judgeOfBase(benchmark::State& state)
{
    const rules::Pack pack = loaded(shipped("base"));
    const rules::Evidence evidence = allProven(pack);
    std::size_t nodes = 0;
    for (auto _ : state) {
        nodes = 0;
        for (const rules::HoldPoint& hold_point : pack.hold_points) {
            for (const auto* list : {&hold_point.at_giving, &hold_point.require, &hold_point.stop}) {
                for (const rules::Rule& rule : *list) {
                    benchmark::DoNotOptimize(rules::judge(std::span(pack.conditions).subspan(rule.condition), evidence, {}));
                    nodes += pack.conditions[rule.condition].size;
                }
            }
        }
    }
    state.counters["nodes"] = static_cast<double>(nodes);
}
BENCHMARK(judgeOfBase)->Unit(benchmark::kMicrosecond)->Repetitions(9)->ReportAggregatesOnly();

void standingOfBase(benchmark::State& state, bool proven)
{
    const rules::Pack pack = loaded(shipped("base"));
    rules::Evidence evidence = allProven(pack);
    if (!proven) {
        evidence.facts.assign(pack.facts.size(), rules::Held{});
        evidence.steps.assign(pack.steps.size(), rules::StepHeld{});
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(rules::standing(pack, evidence));
    }
}
BENCHMARK_CAPTURE(standingOfBase, proven, true)->Unit(benchmark::kMicrosecond)->Repetitions(9)->ReportAggregatesOnly();
BENCHMARK_CAPTURE(standingOfBase, nothing_known, false)->Unit(benchmark::kMicrosecond)->Repetitions(9)->ReportAggregatesOnly();

// As at an adoption: proved by its claims and its structure, no histories written.
void proveForAdoption(benchmark::State& state)
{
    const rules::Pack pack = loaded(shipped("base"));
    const auto claims = rules::loadClaims(shipped("base"), pack);
    for (auto _ : state) {
        benchmark::DoNotOptimize(rules::prove(pack, *claims, {}, {true, true, false, false}));
    }
}
BENCHMARK(proveForAdoption)->Unit(benchmark::kMillisecond);

void loadBase(benchmark::State& state)
{
    const rules::PackSource& source = shipped("base");
    for (auto _ : state) {
        benchmark::DoNotOptimize(rules::load(source, {}));
    }
}
BENCHMARK(loadBase)->Unit(benchmark::kMillisecond);

void proveBase(benchmark::State& state)
{
    const rules::Pack pack = loaded(shipped("base"));
    const auto claims = rules::loadClaims(shipped("base"), pack);
    for (auto _ : state) {
        benchmark::DoNotOptimize(rules::prove(pack, *claims, {&pack, {}}));
    }
}
BENCHMARK(proveBase)->Unit(benchmark::kMillisecond);

// 300 entries: a dozen rounds of records, failures cleared, releases given and ended.
void tell(Story& story)
{
    while (story.lines.size() < 300) {
        story.readyForFirst();
        const Hash high = story.readings("2 %LEL");
        story.clear("high", high, Who::Authoriser);
        story.readings();
        story.giveFirst();
        story.event("dusk");
    }
}

void foldOf300(benchmark::State& state, bool warm)
{
    Story story;
    tell(story);
    (void)story.fold();
    for (auto _ : state) {
        evidence::Memo fresh;
        benchmark::DoNotOptimize(
            evidence::fold(story.lines, story.vessel, story.yard, Story::pack(), {}, story.now(), story.around, warm ? story.memo : fresh));
    }
}
BENCHMARK_CAPTURE(foldOf300, cold, false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(foldOf300, warm, true)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
