// What every command gets: where the yard is, which time, language, form of the answer, and the PINs.
#pragma once

#include "app/text/words.h"
#include "core/yard/clocks.h"
#include "core/yard/yard.h"

#include <QString>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace brimful::cli {

// Exit codes that scripts rely on.
enum Exit : int { kYes = 0, kNo = 1, kInput = 2, kDamaged = 3, kMachine = 4 };

class Options {
public:
    std::filesystem::path yard_folder;
    std::string at;
    std::string language;
    bool json{};
    bool pin_stdin{};

    [[nodiscard]] const ledger::Clock& clock() const { return *m_clock; }
    [[nodiscard]] std::optional<std::int64_t> asIf() const; // parsed --at
    [[nodiscard]] text::Reading reading() const; // of this machine: local offset, units of the setting

    // One line for each signer, in their order; asked for on a terminal without echo.
    [[nodiscard]] yard::Signing signing(const std::string& person);
    [[nodiscard]] std::string secret(const QString& what); // another such line
    [[nodiscard]] std::string answer(const QString& what) const; // shown while typed; "" where nobody sits at a terminal

    // ---- answers
    int print(const canon::Json& json) const; // exit 0
    int fail(const report::Refusal&, const rules::Pack* pack = nullptr) const; // to stderr, its exit code
    int failJson(const canon::Json& error, int code) const; // {"error": ...} to stderr; `code`
    int failInput(const std::string& code, const std::string& path, const std::string& expected, const std::string& found,
        const QString& sentence) const;

private:
    std::unique_ptr<ledger::Clock> m_clock{yard::systemClock()};
};

// Of long work, on a terminal; in a pipe nothing.
class Progress {
public:
    Progress();
    [[nodiscard]] yard::Hears hears() const;
    void done() const; // takes its line away

private:
    bool m_seen; // somebody looks
};

void say(const QString& line); // stdout
void warn(const QString& line); // stderr

[[nodiscard]] std::optional<std::string> slurp(const std::string& path); // "-" is standard input
// A JSON file, or nothing with the error said.
[[nodiscard]] std::optional<canon::Json> readJson(const Options&, const std::string& path, canon::Dialect);

} // namespace brimful::cli
