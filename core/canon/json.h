// JSON with places: every value knows its line and column, so that an error can point. One reader and one writer
// for packs, entries, play files and figure inputs (RapidJSON underneath).
#pragma once

#include <tl/expected.hpp>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace brimful::canon {

enum class Type : std::uint8_t { Null, Bool, Integer, Number, String, Array, Object };

struct Member;

struct Json {
    Type type{Type::Null};
    std::int64_t integer{}; // Integer; Bool as 0 or 1
    double number{}; // Number, and the same value for Integer
    std::string text; // String, UTF-8
    std::vector<Json> items; // Array
    std::vector<Member> members; // Object, in the file's order
    std::uint32_t line{}; // 1-based; 0 for a value made in memory
    std::uint32_t column{};

    Json();
    Json(const Json& other);
    Json(Json&& other) noexcept;
    Json& operator=(const Json& other);
    Json& operator=(Json&& other) noexcept;
    ~Json();
    Json(std::string value);
    Json(std::string_view value);
    Json(const char* value);
    Json(std::int64_t value);
    Json(int value);
    static Json real(double value);
    static Json boolean(bool value);
    static Json array();
    static Json array(std::vector<Json> values);
    static Json object();

    [[nodiscard]] bool is(Type wanted) const { return type == wanted; }
    [[nodiscard]] const Json* find(std::string_view key) const; // Object member or null
    [[nodiscard]] std::string_view textOf(std::string_view key) const; // member's text, "" when absent or no string
    [[nodiscard]] std::int64_t integerOf(std::string_view key, std::int64_t otherwise = 0) const;
    Json& set(std::string key, Json value); // adds or replaces; returns *this
    [[nodiscard]] bool operator==(const Json& other) const; // value, not place; object order does not matter
};

struct Member {
    std::string key;
    Json value;
    std::uint32_t line{};
    std::uint32_t column{};
};

enum class JsonFault : std::uint8_t {
    Syntax,
    DuplicateKey,
    NotUtf8,
    TooDeep,
    TooLarge,
    // only with Dialect::Subset
    NotSubset, // null, true, false, a fraction, an exponent
    IntegerRange, // beyond +-(2^53 - 1)
    KeyForm, // a key outside [a-z0-9_.-]
    ControlCharacter,
    NotCanonical // canonical form differs from the bytes
};

struct JsonError {
    JsonFault fault;
    std::uint32_t line{};
    std::uint32_t column{};
    std::string found;
};

enum class Dialect : std::uint8_t {
    Any, // figure inputs: all of JSON
    Subset // packs, entries, play files: objects, arrays, strings, integers; [a-z0-9_.-] keys
};

[[nodiscard]] tl::expected<Json, JsonError> read(std::string_view bytes, Dialect);

// RFC 8785 bytes of a value in the subset: keys sorted by byte, no spaces. Asserts that the value is in the subset.
[[nodiscard]] std::string canonical(const Json&);

// Reads what must already be canonical; anything that does not re-encode to the same bytes is refused.
[[nodiscard]] tl::expected<Json, JsonError> readCanonical(std::string_view bytes);

// Whether readCanonical would take these bytes: one pass, no tree, and none of the reader's code.
[[nodiscard]] bool isCanonical(std::string_view bytes);

// A member as its bytes stand.
struct Slice {
    std::string_view key; // without quotes
    std::string_view value;
};
// The same look; and of an object its outermost members, in their order. False: not canonical, or no object.
[[nodiscard]] bool membersOf(std::string_view bytes, std::vector<Slice>& members);

// For people and scripts: keys in the order they were set, shortest numbers that read back the same.
[[nodiscard]] std::string write(const Json&, bool indented);

} // namespace brimful::canon
