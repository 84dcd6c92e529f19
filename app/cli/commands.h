// The commands, each a function that asks or acts through the yard and returns the exit code.
#pragma once

#include "app/cli/options.h"

#include <CLI/CLI.hpp>

namespace brimful::cli {

// Each adds its verbs to `app`; the chosen verb leaves its work in `run`.
using Run = std::function<int()>;
void addYardCommands(CLI::App& app, Options&, Run&); // demo, yard, person, instrument, clock
void addLaw(CLI::App& app, Options&, Run&); // pack adopt, pack show
[[nodiscard]] std::string lawOf(const std::string& word); // "all" is ""
void addVesselCommands(CLI::App& app, Options&, Run&); // vessel, record, event, release, withdraw, correct, clear, confirm, gap
void addAskCommands(CLI::App& app, Options&, Run&); // audit, explain, ledger
void addTagCommands(CLI::App& app, Options&, Run&); // tag
void addKeyCommands(CLI::App& app, Options&, Run&); // key, device
void addFigureCommands(CLI::App& app, Options&, Run&); // figure, rules, play
void addTemplateCommand(CLI::App& app, Options&, Run&); // template

void addPackCommands(CLI::App& rules, Options&, Run&); // rules check, rules prove, rules book

// A shipped pack by its name, or the folder of one.
[[nodiscard]] std::optional<rules::PackSource> packNamed(const std::string& name);

// Answers of several commands.
[[nodiscard]] int failFigure(const Options&, const figure::Error&);
[[nodiscard]] canon::Json boardJson(const rules::Pack&, const std::vector<report::BoardRow>&);
[[nodiscard]] canon::Json blockerJson(const report::BlockerShown&);
[[nodiscard]] canon::Json standingJson(const rules::Pack&, const evidence::Folded&, const report::VesselView&, const text::Reading&);
[[nodiscard]] canon::Json partsJson(const std::vector<rules::PackPart>&); // [{"id", "version", "hash"}]
[[nodiscard]] canon::Json auditJson(const report::Audit&);

} // namespace brimful::cli
