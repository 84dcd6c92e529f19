// A calculation as a value: inputs with units in, SI numbers out, warnings, and a picture whose parts have names.
// Knows nothing of packs, yards or sentences.
#pragma once

#include "core/canon/json.h"
#include "core/quantity/quantity.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace brimful::gas {
class SubstanceTable;
}

namespace brimful::figure {

using quantity::Dimension;

enum class InputKind : std::uint8_t { Quantity, Number, Choice, Text, Flag, Object, List };

struct Input {
    std::string_view key{};
    InputKind kind{InputKind::Quantity};
    Dimension dimension{Dimension::Number}; // of a Quantity; a Number of VolumeShare may be typed as "60 %" too
    bool required{};
    std::span<const Input> inside{}; // of an Object, or of each item of a List
    std::span<const std::string_view> choices{}; // of a Choice
};

enum class OutputKind : std::uint8_t { Number, Text, Flag, List, Object };

struct Output {
    std::string_view key; // unit in the key: "trapped_m3"; a text or flag has none
    Dimension dimension{Dimension::Number};
    OutputKind kind{OutputKind::Number};
};

enum class Code : std::uint8_t {
    Missing,
    UnknownKey,
    WrongType,
    BadQuantity,
    OutOfRange,
    UnknownChoice,
    UnknownSubstance,
    Impossible,
    NotConverged,
    Conflicting
};
struct Error {
    std::string path; // "vessel.wall"
    Code code;
    std::string expected;
    std::string found;
};

// Polyline of a picture in metres, x right, y up; `part` is what a hand may touch ("shell", "water", "pocket", "opening:N1").
struct Line {
    std::string part;
    bool closed{};
    std::vector<std::pair<double, double>> metres;
};

struct Result {
    canon::Json values{canon::Json::object()}; // keys as declared by outputs; keys without an answer are absent
    std::vector<std::string> warnings; // closed words: "baffles-not-modelled", "sensor-starved" ...; app/text words them
    std::vector<Line> picture;
};

// What figures may look up; immutable, passed in by whoever asks.
struct Reference {
    const gas::SubstanceTable* substances{};
};

struct Figure {
    std::string_view name;
    std::uint16_t version; // changes with any change of an answer
    std::span<const Input> inputs;
    std::span<const Output> outputs;
    std::span<const std::string_view> warnings; // all that it can give
    // What compute() hands on has been checked: every Quantity and Number is a Number in SI (angles in radians, temperatures
    // in kelvin, shares 0..1), every Text a String, every Flag a Bool, and nothing else is in it.
    tl::expected<Result, Error> (*compute)(const canon::Json& checked_inputs, const Reference&);
};

[[nodiscard]] std::span<const Figure> catalogue(); // sorted by name
[[nodiscard]] const Figure* byName(std::string_view name);

// Checks keys, types, units and required inputs against the declaration, then computes. A Quantity is a string with its
// unit; under a key that ends in "_deg" a bare number of degrees does too. A Number may be a string ("0.61"), because
// entries hold no fractions; a Flag may be 0 or 1, because they hold no booleans; a Text may be a whole number.
[[nodiscard]] tl::expected<Result, Error> compute(const Figure&, const canon::Json& inputs, const Reference&);

// {"figure", "version", "inputs", "outputs", "warnings"}: JSON Schema (draft 2020-12) of the inputs, and of the outputs
// with their units ("unit"), and the warnings that it can give.
[[nodiscard]] canon::Json describe(const Figure&);

// The unit in an output's key ("m3" of "trapped_m3"), empty when it has none.
[[nodiscard]] std::string_view unitOf(const Output&);
// An output's number in SI: of a "_deg" in radians, of a "_percent" or "_ppm" a share; a "per_mille"
// stays a count of thousandths.
[[nodiscard]] double siOf(const Output&, double value);

} // namespace brimful::figure
