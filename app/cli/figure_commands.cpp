// figure, rules, play: the pure doors beside the yard.
#include "app/cli/commands.h"
#include "core/figure/reference.h"
#include "core/yard/iso_time.h"
#include "core/yard/play.h"

#include <QCoreApplication>
#include <QTemporaryDir>

#include <algorithm>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string name, file{"-"}, pack{"base"};
    bool list{}, describe{};
};

int runFigure(const Options& options, const Arguments& a)
{
    if (a.list && options.json) {
        Json all = Json::array();
        for (const figure::Figure& one : figure::catalogue()) {
            Json row = Json::object();
            row.set("name", std::string(one.name)).set("title", text::figureName(std::string(one.name)).toStdString());
            all.items.push_back(row);
        }
        Json out = Json::object();
        out.set("figures", all);
        return options.print(out);
    }
    if (a.list) {
        for (const figure::Figure& one : figure::catalogue()) {
            say(QStringLiteral("%1  %2")
                    .arg(QString::fromStdString(std::string(one.name)), -14)
                    .arg(text::figureName(std::string(one.name))));
        }
        return kYes;
    }
    const figure::Figure* figure = figure::byName(a.name);
    if (figure == nullptr) {
        return options.failInput("unknown-figure", "figure", {}, a.name,
            Tr::tr("No figure is called \"%1\"; see figure --list.").arg(QString::fromStdString(a.name)));
    }
    if (a.describe) {
        return options.print(figure::describe(*figure));
    }
    const auto input = readJson(options, a.file, canon::Dialect::Any);
    if (!input) {
        return kInput;
    }
    const auto substances = figure::shippedSubstances(rules::shippedFile("reference/substances.json"));
    figure::Reference reference;
    reference.substances = substances ? &*substances : nullptr;
    const auto result = figure::compute(*figure, *input, reference);
    if (!result) {
        return failFigure(options, result.error());
    }
    Json out = result->values;
    if (!result->warnings.empty()) {
        Json warnings = Json::array();
        for (const std::string& warning : result->warnings) {
            warnings.items.emplace_back(warning);
        }
        out.set("warnings", warnings);
    }
    return options.print(out);
}

Json playedJson(const yard::Played& played)
{
    Json lines = Json::array();
    for (const yard::PlayedLine& line : played.lines) {
        Json one = Json::object();
        one.set("at", yard::formatTime(line.at_ms)).set("act", line.act).set("vessel", line.vessel);
        one.set("what", line.what).set("outcome", line.outcome);
        lines.items.push_back(one);
    }
    Json unmet = Json::array();
    for (const yard::Unmet& one : played.unmet) {
        Json row = Json::object();
        row.set("act", static_cast<std::int64_t>(one.act)).set("vessel", one.vessel);
        row.set("expected", one.expected).set("found", one.found);
        unmet.items.push_back(row);
    }
    Json out = Json::object();
    out.set("played", lines).set("unmet", unmet);
    return out;
}

int tell(const Options& options, const std::string& name, const yard::Played& played)
{
    for (const yard::PlayedLine& line : played.lines) {
        if (!options.json) {
            say(QStringLiteral("%1  %2  %3  %4  %5")
                    .arg(text::dateTime(line.at_ms, options.reading()), QString::fromStdString(line.vessel).leftJustified(8),
                        QString::fromStdString(line.act).leftJustified(16), QString::fromStdString(line.what).leftJustified(16),
                        QString::fromStdString(line.outcome)));
        }
    }
    for (const yard::Unmet& unmet : played.unmet) {
        warn(Tr::tr("%1: act %2, %3: expected %4; found %5")
                 .arg(QString::fromStdString(name))
                 .arg(unmet.act)
                 .arg(QString::fromStdString(unmet.vessel), QString::fromStdString(unmet.expected), QString::fromStdString(unmet.found)));
    }
    return played.unmet.empty() ? kYes : kNo;
}

int runScenario(const Options& options, const std::string& name, const Json& scenario, bool quiet)
{
    const QTemporaryDir folder;
    const auto played = yard::play(scenario, (folder.path() + QStringLiteral("/yard")).toStdString());
    if (!played) {
        return options.fail(played.error());
    }
    if (quiet) {
        yard::Played unmet = *played;
        unmet.lines.clear();
        return tell(options, name, unmet);
    }
    if (options.json) {
        options.print(playedJson(*played));
    }
    return tell(options, name, *played);
}

// The pack's own cases: every file under rules/cases/PACK.
int runCases(const Options& options, const std::string& pack)
{
    if (!packNamed(pack)) {
        report::Refusal refusal;
        refusal.why = report::Why::UnknownPack;
        refusal.found = pack;
        return options.fail(refusal);
    }
    int failed = 0;
    int run = 0;
    for (const std::string& path : rules::shippedFiles("cases/" + pack + "/")) {
        const auto scenario = canon::read(rules::shippedFile(path), canon::Dialect::Subset);
        ++run;
        const int code = scenario ? runScenario(options, path, *scenario, true) : static_cast<int>(kInput);
        failed += code == kYes ? 0 : 1;
        if (!options.json) {
            say(QStringLiteral("%1  %2").arg(
                code == kYes ? Tr::tr("as expected") : Tr::tr("NOT as expected"), QString::fromStdString(path)));
        }
    }
    Json out = Json::object();
    out.set("cases", run).set("failed", failed);
    if (options.json) {
        options.print(out);
    } else {
        say(Tr::tr("%1 cases, %2 not as expected.").arg(run).arg(failed));
    }
    return failed == 0 && run > 0 ? kYes : kNo;
}

} // namespace

int failFigure(const Options& options, const figure::Error& error)
{
    constexpr std::string_view kCodes[] = {"missing", "unknown-key", "wrong-type", "bad-quantity", "out-of-range", "unknown-choice",
        "unknown-substance", "impossible", "not-converged", "conflicting"};
    return options.failInput(
        std::string(kCodes[static_cast<std::size_t>(error.code)]), error.path, error.expected, error.found, text::figureError(error));
}

void addFigureCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* figure = app.add_subcommand("figure", "calculations: JSON in, JSON out");
    figure->add_option("name", a->name);
    figure->add_option("file", a->file, "input; - for standard input");
    figure->add_flag("--list", a->list, "what there is");
    figure->add_flag("--describe", a->describe, "inputs and outputs as JSON Schema");
    figure->callback([&options, &run, a] { run = [&options, a] { return runFigure(options, *a); }; });

    CLI::App* rules = app.add_subcommand("rules", "rule packs")->require_subcommand(1);
    addPackCommands(*rules, options, run);
    CLI::App* cases = rules->add_subcommand("cases", "play the pack's own cases");
    cases->add_option("pack", a->pack);
    cases->callback([&options, &run, a] { run = [&options, a] { return runCases(options, a->pack); }; });

    CLI::App* play = app.add_subcommand("play", "play a scenario in a yard of its own and tell what happened");
    play->add_option("file", a->file)->required();
    play->callback([&options, &run, a] {
        run = [&options, a] {
            const auto scenario = readJson(options, a->file, canon::Dialect::Subset);
            return scenario ? runScenario(options, a->file, *scenario, false) : static_cast<int>(kInput);
        };
    });
}

} // namespace brimful::cli
