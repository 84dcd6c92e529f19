// What a live figure is asked with, and what its answer's values are read with.
#pragma once

#include "core/canon/json.h"
#include "core/report/view.h"

#include <QString>

#include <functional>
#include <string>
#include <vector>

namespace brimful::tablet {

// A value to be stepped through: all that it may be, in the order of plus.
struct FigureInput {
    QString key;
    QString caption;
    std::vector<double> values;
    std::function<QString(double)> words;
    std::size_t at{};
    int letters{}; // of its longest value or caption; counted where it is 0
    bool asked{true}; // false: it plays no part as things are, and has no key
    [[nodiscard]] double value() const { return values.at(at); }
    void setNearest(double value);
    void setOwn(double value); // what the record says, put among the values where it is none of them
};

[[nodiscard]] std::vector<double> stepped(double from, double to, double by);
// For a figure's input: "0.25 m".
[[nodiscard]] std::string measure(double value, const char* unit);
// NaN where there is none.
[[nodiscard]] double numberOf(const canon::Json& values, std::string_view key);
[[nodiscard]] bool flagOf(const canon::Json& values, std::string_view key); // false where there is none
[[nodiscard]] bool warns(const std::vector<std::string>& warnings, std::string_view word);
// Three digits that count, two below 1 %, and no more than a hundredth of a percent.
[[nodiscard]] QString percentDigits(double percent);
// The vessel and its openings as a figure's inputs; what is plugged, stuck or unknown is shut.
[[nodiscard]] canon::Json vesselInput(const report::ShellView& shell);
[[nodiscard]] canon::Json openingsInput(const std::vector<report::OpeningView>& openings);
[[nodiscard]] bool isShut(report::OpeningState state);

} // namespace brimful::tablet
