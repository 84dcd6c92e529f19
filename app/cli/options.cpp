#include "app/cli/options.h"

#include "core/yard/iso_time.h"

#include <QDateTime>
#include <QTextStream>

#include <fstream>
#include <iostream>
#include <termios.h>
#include <unistd.h>

namespace brimful::cli {

namespace {

std::string readSecret(const std::string& what)
{
    std::cerr << what << ": " << std::flush;
    termios before{};
    const bool terminal = ::tcgetattr(STDIN_FILENO, &before) == 0;
    if (terminal) {
        termios quiet = before;
        quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
    }
    std::string pin;
    std::getline(std::cin, pin);
    if (terminal) {
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
        std::cerr << '\n';
    }
    return pin;
}

} // namespace

std::optional<std::int64_t> Options::asIf() const { return at.empty() ? std::nullopt : yard::parseTime(at); }

text::Reading Options::reading() const
{
    text::Reading reading;
    const std::int64_t now = asIf().value_or(m_clock->now().wall_ms);
    reading.offset_minutes = QDateTime::fromMSecsSinceEpoch(now).offsetFromUtc() / 60;
    return reading;
}

yard::Signing Options::signing(const std::string& person)
{
    return {person, secret(QStringLiteral("PIN of %1").arg(QString::fromStdString(person))), {}};
}

std::string Options::secret(const QString& what) // NOLINT(readability-make-member-function-const): it takes a line
{
    std::string line;
    if (pin_stdin) {
        std::getline(std::cin, line);
    } else if (::isatty(STDIN_FILENO) != 0) {
        line = readSecret(what.toStdString());
    }
    return line;
}

std::string Options::answer(const QString& what) const
{
    std::string line;
    if (!pin_stdin && ::isatty(STDIN_FILENO) != 0) {
        std::cerr << what.toStdString() << ' ' << std::flush;
        std::getline(std::cin, line);
    }
    return line;
}

int Options::print(const canon::Json& value) const
{
    QTextStream(stdout) << QString::fromStdString(canon::write(value, true)) << '\n';
    return kYes;
}

int Options::fail(const report::Refusal& refusal, const rules::Pack* pack) const
{
    const int code = static_cast<int>(report::answerOf(refusal.why));
    if (json) {
        canon::Json error = canon::Json::object();
        error.set("code", report::whyWord(refusal.why))
            .set("path", refusal.path)
            .set("expected", refusal.expected)
            .set("found", refusal.found);
        return failJson(error, code);
    }
    warn(text::refusal(refusal, pack));
    return code;
}

int Options::failJson(const canon::Json& error, int code) const
{
    canon::Json out = canon::Json::object();
    out.set("error", error);
    QTextStream(stderr) << QString::fromStdString(canon::write(out, false)) << '\n';
    return code;
}

int Options::failInput(
    const std::string& code, const std::string& path, const std::string& expected, const std::string& found, const QString& sentence) const
{
    if (json) {
        canon::Json error = canon::Json::object();
        error.set("code", code).set("path", path).set("expected", expected).set("found", found);
        return failJson(error, kInput);
    }
    warn(sentence);
    return kInput;
}

Progress::Progress()
    : m_seen(::isatty(STDERR_FILENO) != 0)
{
}

yard::Hears Progress::hears() const
{
    if (!m_seen) {
        return {};
    }
    return [](std::uint64_t done, std::uint64_t of) { std::cerr << '\r' << done << " / " << of << std::flush; };
}

void Progress::done() const
{
    if (m_seen) {
        std::cerr << "\r\x1b[K" << std::flush;
    }
}

void say(const QString& line) { QTextStream(stdout) << line << '\n'; }
void warn(const QString& line) { QTextStream(stderr) << line << '\n'; }

std::optional<std::string> slurp(const std::string& path)
{
    if (path == "-") {
        return std::string{std::istreambuf_iterator<char>(std::cin), {}};
    }
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        return std::nullopt;
    }
    return std::string{std::istreambuf_iterator<char>(in), {}};
}

std::optional<canon::Json> readJson(const Options& options, const std::string& path, canon::Dialect dialect)
{
    report::Refusal refusal;
    refusal.path = path;
    const auto text = slurp(path);
    if (!text) {
        refusal.why = report::Why::NoSuchFile;
        refusal.found = path;
        options.fail(refusal);
        return std::nullopt;
    }
    auto json = canon::read(*text, dialect);
    if (!json) {
        refusal.why = report::Why::BadJson;
        refusal.path = path + ":" + std::to_string(json.error().line) + ":" + std::to_string(json.error().column);
        refusal.found = json.error().found;
        options.fail(refusal);
        return std::nullopt;
    }
    return std::move(*json);
}

} // namespace brimful::cli
