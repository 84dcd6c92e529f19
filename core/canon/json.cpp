#include "core/canon/json.h"

#include <rapidjson/error/en.h>
#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>
#include <unordered_set>

namespace brimful::canon {

Json::Json() = default;
Json::Json(const Json& other) = default;
Json::Json(Json&& other) noexcept = default;
Json& Json::operator=(const Json& other) = default;
Json& Json::operator=(Json&& other) noexcept = default;
Json::~Json() = default;

Json::Json(std::string value)
    : type(Type::String)
    , text(std::move(value))
{
}
Json::Json(std::string_view value)
    : type(Type::String)
    , text(value)
{
}
Json::Json(const char* value)
    : type(Type::String)
    , text(value)
{
}
Json::Json(std::int64_t value)
    : type(Type::Integer)
    , integer(value)
    , number(static_cast<double>(value))
{
}
Json::Json(int value)
    : Json(std::int64_t{value})
{
}

Json Json::real(double value)
{
    Json out;
    out.type = Type::Number;
    out.number = value;
    return out;
}

Json Json::boolean(bool value)
{
    Json out;
    out.type = Type::Bool;
    out.integer = value ? 1 : 0;
    return out;
}

Json Json::array() { return array(std::vector<Json>()); }

Json Json::array(std::vector<Json> values)
{
    Json out;
    out.type = Type::Array;
    out.items = std::move(values);
    return out;
}

Json Json::object()
{
    Json out;
    out.type = Type::Object;
    return out;
}

const Json* Json::find(std::string_view key) const
{
    const auto found = std::ranges::find(members, key, &Member::key);
    return found == members.end() ? nullptr : &found->value;
}

std::string_view Json::textOf(std::string_view key) const
{
    const Json* value = find(key);
    return value != nullptr && value->type == Type::String ? std::string_view(value->text) : std::string_view();
}

std::int64_t Json::integerOf(std::string_view key, std::int64_t otherwise) const
{
    const Json* value = find(key);
    return value != nullptr && value->type == Type::Integer ? value->integer : otherwise;
}

Json& Json::set(std::string key, Json value)
{
    const auto found = std::ranges::find(members, key, &Member::key);
    if (found != members.end()) {
        found->value = std::move(value);
    } else {
        members.push_back({std::move(key), std::move(value), 0, 0});
    }
    return *this;
}

bool Json::operator==(const Json& other) const
{
    if (type != other.type) {
        return false;
    }
    switch (type) {
    case Type::Null:
        return true;
    case Type::Bool:
    case Type::Integer:
        return integer == other.integer;
    case Type::Number:
        return number == other.number;
    case Type::String:
        return text == other.text;
    case Type::Array:
        return items == other.items;
    case Type::Object:
        return members.size() == other.members.size() && std::ranges::all_of(members, [&](const Member& member) {
            const Json* twin = other.find(member.key);
            return twin != nullptr && *twin == member.value;
        });
    }
    return false;
}

namespace {

constexpr std::int64_t kLargestInteger = 9'007'199'254'740'991; // 2^53 - 1
constexpr std::size_t kDeepest = 64;
constexpr std::size_t kFewKeys = 32;
constexpr std::size_t kLargestText = 16ULL * 1024 * 1024;

bool isKey(std::string_view key)
{
    return !key.empty() && std::ranges::all_of(key, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.' || c == '-';
    });
}

// Half of a pair of \u escapes, which RapidJSON 1.1 writes as three bytes that are no UTF-8.
bool holdsSurrogate(std::string_view text)
{
    for (std::size_t at = text.find('\xED'); at != std::string_view::npos; at = text.find('\xED', at + 1)) {
        if (at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) >= 0xA0) {
            return true;
        }
    }
    return false;
}

// Line and column of byte offsets that only grow.
class Places {
public:
    explicit Places(std::string_view bytes)
        : m_bytes(bytes)
    {
    }

    void goTo(std::size_t offset)
    {
        for (; m_at < offset && m_at < m_bytes.size(); ++m_at) {
            if (m_bytes[m_at] == '\n') {
                ++m_line;
                m_column = 1;
            } else if ((static_cast<unsigned char>(m_bytes[m_at]) & 0xC0U) != 0x80U) {
                ++m_column;
            }
        }
    }
    [[nodiscard]] std::uint32_t line() const { return m_line; }
    [[nodiscard]] std::uint32_t column() const { return m_column; }

private:
    std::string_view m_bytes;
    std::size_t m_at{};
    std::uint32_t m_line{1};
    std::uint32_t m_column{1};
};

using Stream = rapidjson::MemoryStream;

// Builds the tree while RapidJSON reads. The stream stands behind a value when its handler is called; a value's place is
// where its first byte stands, found by walking back over what was read.
struct Builder {
    using Ch = char;

    std::string_view bytes;
    const Stream& stream;
    Dialect dialect;
    Places places;
    Json root;
    std::vector<Json*> open;
    std::vector<std::unordered_set<std::string>> keys; // beside `open`; filled when an object has many
    std::string key;
    std::uint32_t key_line{};
    std::uint32_t key_column{};
    std::optional<JsonError> error;

    Builder(std::string_view all, const Stream& its_stream, Dialect its_dialect)
        : bytes(all)
        , stream(its_stream)
        , dialect(its_dialect)
        , places(all)
    {
    }

    bool fail(JsonFault fault, std::string found)
    {
        error = JsonError{fault, places.line(), places.column(), std::move(found)};
        return false;
    }

    // Strings are walked back to their opening quote, other scalars to their first letter.
    void placeScalar(bool quoted)
    {
        std::size_t at = stream.Tell();
        at = std::min(at, bytes.size());
        if (quoted) {
            at -= at > 0 ? 1 : 0;
            while (at > 0) {
                --at;
                if (bytes[at] == '"') {
                    std::size_t slashes = 0;
                    while (slashes < at && bytes[at - 1 - slashes] == '\\') {
                        ++slashes;
                    }
                    if (slashes % 2 == 0) {
                        break;
                    }
                }
            }
        } else {
            while (at > 0 && std::string_view("+-0123456789.eEtrufalsn").find(bytes[at - 1]) != std::string_view::npos) {
                --at;
            }
        }
        places.goTo(at);
    }

    Json* put(Json value)
    {
        value.line = places.line();
        value.column = places.column();
        if (open.empty()) {
            root = std::move(value);
            return &root;
        }
        Json& parent = *open.back();
        if (parent.type == Type::Array) {
            parent.items.push_back(std::move(value));
            return &parent.items.back();
        }
        parent.members.push_back({std::move(key), std::move(value), key_line, key_column});
        return &parent.members.back().value;
    }

    bool plain(Json value, const char* found)
    {
        placeScalar(false);
        if (dialect == Dialect::Subset) {
            return fail(JsonFault::NotSubset, found);
        }
        put(std::move(value));
        return true;
    }

    bool Null() { return plain(Json(), "null"); }
    bool Bool(bool value) { return plain(Json::boolean(value), value ? "true" : "false"); }
    // Numbers come as text: RapidJSON's own reading of very long ones shifts by a negative count.
    bool RawNumber(const char* text, rapidjson::SizeType length, bool /*copy*/)
    {
        placeScalar(false);
        const std::string_view said(text, length);
        const char* const end = text + length;
        const bool whole = said.find_first_not_of("-0123456789") == std::string_view::npos;
        std::int64_t count{};
        const bool counts = whole && std::from_chars(text, end, count).ec == std::errc{};
        if (dialect == Dialect::Subset && (!counts || count > kLargestInteger || count < -kLargestInteger)) {
            return fail(whole ? JsonFault::IntegerRange : JsonFault::NotSubset, std::string(said));
        }
        if (counts) {
            put(Json(count));
            return true;
        }
        double value{};
        if (std::from_chars(text, end, value).ec != std::errc{}) { // beyond what a double holds, or too near to nothing
            return fail(JsonFault::Syntax, std::string(said));
        }
        put(Json::real(value));
        return true;
    }
    // Never called: RapidJSON only wants them there.
    bool Double(double /*value*/) { return false; }
    bool Int(int /*value*/) { return false; }
    bool Uint(unsigned /*value*/) { return false; }
    bool Int64(std::int64_t /*value*/) { return false; }
    bool Uint64(std::uint64_t /*value*/) { return false; }
    bool String(const char* text, rapidjson::SizeType length, bool /*copy*/)
    {
        placeScalar(true);
        std::string value(text, length);
        if (holdsSurrogate(value)) {
            return fail(JsonFault::NotUtf8, {});
        }
        if (dialect == Dialect::Subset
            && std::ranges::any_of(value, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; })) {
            return fail(JsonFault::ControlCharacter, {});
        }
        put(Json(std::move(value)));
        return true;
    }
    bool start(Json container)
    {
        places.goTo(stream.Tell()); // the bracket is taken after this
        if (open.size() >= kDeepest) {
            return fail(JsonFault::TooDeep, {});
        }
        open.push_back(put(std::move(container)));
        keys.emplace_back();
        return true;
    }
    bool StartObject() { return start(Json::object()); }
    bool StartArray() { return start(Json::array()); }
    bool Key(const char* text, rapidjson::SizeType length, bool /*copy*/)
    {
        placeScalar(true);
        key.assign(text, length);
        key_line = places.line();
        key_column = places.column();
        if (dialect == Dialect::Subset && !isKey(key)) {
            return fail(JsonFault::KeyForm, key);
        }
        if (holdsSurrogate(key)) {
            return fail(JsonFault::NotUtf8, {});
        }
        return isNew(key) || fail(JsonFault::DuplicateKey, key);
    }
    // Few keys are looked through, many are hashed: a file made of keys must not cost their square.
    bool isNew(const std::string& name)
    {
        const Json& object = *open.back();
        std::unordered_set<std::string>& known = keys.back();
        if (object.members.size() < kFewKeys) {
            return object.find(name) == nullptr;
        }
        if (known.empty()) {
            for (const Member& member : object.members) {
                known.insert(member.key);
            }
        }
        return known.insert(name).second;
    }
    bool end()
    {
        open.pop_back();
        keys.pop_back();
        return true;
    }
    bool EndObject(rapidjson::SizeType /*count*/) { return end(); }
    bool EndArray(rapidjson::SizeType /*count*/) { return end(); }
};

} // namespace

tl::expected<Json, JsonError> read(std::string_view bytes, Dialect dialect)
{
    if (bytes.size() > kLargestText) {
        return tl::unexpected(JsonError{JsonFault::TooLarge, 1, 1, {}});
    }
    Stream stream(bytes.data(), bytes.size());
    Builder builder(bytes, stream, dialect);
    rapidjson::Reader reader;
    constexpr unsigned kFlags =
        rapidjson::kParseValidateEncodingFlag | rapidjson::kParseNumbersAsStringsFlag | rapidjson::kParseIterativeFlag;
    reader.Parse<kFlags>(stream, builder);
    if (builder.error) {
        return tl::unexpected(*builder.error);
    }
    if (reader.HasParseError()) {
        Places places(bytes);
        places.goTo(reader.GetErrorOffset());
        const bool encoding = reader.GetParseErrorCode() == rapidjson::kParseErrorStringInvalidEncoding;
        return tl::unexpected(JsonError{encoding ? JsonFault::NotUtf8 : JsonFault::Syntax, places.line(), places.column(),
            std::string(bytes.substr(std::min(reader.GetErrorOffset(), bytes.size()), 12))});
    }
    if (stream.Tell() < bytes.size()) { // a zero byte ends RapidJSON's reading, not the file
        Places places(bytes);
        places.goTo(stream.Tell());
        return tl::unexpected(JsonError{JsonFault::Syntax, places.line(), places.column(), {}});
    }
    return std::move(builder.root);
}

namespace {

// Strings as RFC 8785 asks: only what must be escaped is, with the short forms.
void writeText(std::string& out, std::string_view text)
{
    constexpr std::string_view kHex = "0123456789abcdef";
    out += '"';
    for (const char c : text) {
        switch (c) {
        case '"':
            out += "\\\"";
            break;
        case '\\':
            out += "\\\\";
            break;
        case '\b':
            out += "\\b";
            break;
        case '\f':
            out += "\\f";
            break;
        case '\n':
            out += "\\n";
            break;
        case '\r':
            out += "\\r";
            break;
        case '\t':
            out += "\\t";
            break;
        default:
            if (static_cast<unsigned char>(c) < 0x20) {
                out += "\\u00";
                out += kHex[static_cast<unsigned char>(c) >> 4U];
                out += kHex[static_cast<unsigned char>(c) & 0xFU];
            } else {
                out += c;
            }
        }
    }
    out += '"';
}

void writeCanonical(std::string& out, const Json& value)
{
    switch (value.type) {
    case Type::Integer:
        out += std::to_string(value.integer);
        return;
    case Type::String:
        writeText(out, value.text);
        return;
    case Type::Array: {
        out += '[';
        for (std::size_t i = 0; i < value.items.size(); ++i) {
            out += i == 0 ? "" : ",";
            writeCanonical(out, value.items[i]);
        }
        out += ']';
        return;
    }
    case Type::Object: {
        std::vector<const Member*> sorted;
        sorted.reserve(value.members.size());
        for (const Member& member : value.members) {
            sorted.push_back(&member);
        }
        std::ranges::sort(sorted, {}, &Member::key); // ASCII keys: byte order is UTF-16 order
        out += '{';
        for (std::size_t i = 0; i < sorted.size(); ++i) {
            out += i == 0 ? "" : ",";
            writeText(out, sorted[i]->key);
            out += ':';
            writeCanonical(out, sorted[i]->value);
        }
        out += '}';
        return;
    }
    case Type::Null:
    case Type::Bool:
    case Type::Number:
        break;
    }
    assert(!"not in the subset");
}

void writeNumber(std::string& out, double value)
{
    if (!std::isfinite(value)) {
        out += "null";
        return;
    }
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    out.append(buffer.data(), end.ptr);
}

void writeAny(std::string& out, const Json& value, bool indented, std::size_t depth)
{
    const auto newline = [&](std::size_t level) {
        if (indented) {
            out += '\n';
            out.append(level * 2, ' ');
        }
    };
    switch (value.type) {
    case Type::Null:
        out += "null";
        return;
    case Type::Bool:
        out += value.integer != 0 ? "true" : "false";
        return;
    case Type::Integer:
        out += std::to_string(value.integer);
        return;
    case Type::Number:
        writeNumber(out, value.number);
        return;
    case Type::String:
        writeText(out, value.text);
        return;
    case Type::Array:
        out += '[';
        for (std::size_t i = 0; i < value.items.size(); ++i) {
            out += i == 0 ? "" : ",";
            newline(depth + 1);
            writeAny(out, value.items[i], indented, depth + 1);
        }
        if (!value.items.empty()) {
            newline(depth);
        }
        out += ']';
        return;
    case Type::Object:
        out += '{';
        for (std::size_t i = 0; i < value.members.size(); ++i) {
            out += i == 0 ? "" : ",";
            newline(depth + 1);
            writeText(out, value.members[i].key);
            out += indented ? ": " : ":";
            writeAny(out, value.members[i].value, indented, depth + 1);
        }
        if (!value.members.empty()) {
            newline(depth);
        }
        out += '}';
        return;
    }
}

} // namespace

std::string canonical(const Json& value)
{
    std::string out;
    writeCanonical(out, value);
    return out;
}

tl::expected<Json, JsonError> readCanonical(std::string_view bytes)
{
    auto value = read(bytes, Dialect::Subset);
    if (value && canonical(*value) != bytes) {
        return tl::unexpected(JsonError{JsonFault::NotCanonical, 1, 1, {}});
    }
    return value;
}

std::string write(const Json& value, bool indented)
{
    std::string out;
    writeAny(out, value, indented, 0);
    return out;
}

} // namespace brimful::canon
