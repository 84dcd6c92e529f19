#include "core/tag/tag.h"

#include <date/date.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <span>

namespace brimful::tag {

namespace {

constexpr std::string_view kMark = "B1";
constexpr std::uint8_t kVersion = 1;
constexpr std::size_t kNumberSize = 12;
constexpr std::size_t kKeyIdSize = 4;
// PERSISTED: version 1, flags 1, yard 4, vessel 16, number 12, serial 4, head 32, issued 6, offset 2, state 1, until 6, device 4.
constexpr std::size_t kBodySize = 1 + 1 + 4 + 16 + kNumberSize + 4 + 32 + 6 + 2 + 1 + 6 + kKeyIdSize;
constexpr std::size_t kSignatureSize = 64;

void put(std::string& out, std::uint64_t value, std::size_t bytes)
{
    for (std::size_t i = bytes; i-- > 0;) {
        out += static_cast<char>((value >> (8 * i)) & 0xFFU);
    }
}

std::uint64_t take(std::string_view bytes, std::size_t& at, std::size_t count)
{
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        value = value << 8U | static_cast<unsigned char>(bytes[at++]);
    }
    return value;
}

template <class Id> void putId(std::string& out, const Id& id, std::size_t bytes)
{
    for (std::size_t i = 0; i < bytes; ++i) {
        out += static_cast<char>(id.value[i]);
    }
}

template <class Id> void takeId(std::string_view bytes, std::size_t& at, Id& id, std::size_t count)
{
    for (std::size_t i = 0; i < count; ++i) {
        id.value[i] = static_cast<std::uint8_t>(bytes[at++]);
    }
}

std::string bodyOf(const Facts& facts)
{
    std::string body;
    put(body, kVersion, 1);
    put(body, facts.demo ? 1 : 0, 1);
    putId(body, facts.yard, 4);
    putId(body, facts.vessel, 16);
    std::string number = facts.number.substr(0, kNumberSize);
    number.resize(kNumberSize, '\0');
    body += number;
    put(body, static_cast<std::uint64_t>(facts.serial), 4);
    putId(body, facts.head, 32);
    put(body, static_cast<std::uint64_t>(facts.issued_ms), 6);
    put(body, static_cast<std::uint64_t>(static_cast<std::uint16_t>(static_cast<std::int16_t>(facts.offset_minutes))), 2);
    put(body, static_cast<std::uint64_t>(facts.state), 1);
    put(body, static_cast<std::uint64_t>(facts.until_ms), 6);
    putId(body, facts.device, kKeyIdSize);
    return body;
}

Hash signedHash(std::string_view line, std::string_view body) { return canon::sha256(std::string(line) + '\n' + std::string(body)); }

template <class Id> std::span<const std::uint8_t> bytesOf(const Id& text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()}; // NOLINT(*-reinterpret-cast)
}

std::string twoDigits(unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); }

// "SUN 14 JUN 12:30 UTC-4": local time, weekday and offset; never a bare Z.
std::string localTime(std::int64_t wall_ms, int offset_minutes)
{
    constexpr std::array<std::string_view, 7> kDays{"SUN", "MON", "TUE", "WED", "THU", "FRI", "SAT"};
    constexpr std::array<std::string_view, 12> kMonths{"JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"};
    const auto local =
        std::chrono::time_point<std::chrono::system_clock, std::chrono::minutes>(std::chrono::minutes(wall_ms / 60'000 + offset_minutes));
    const auto day = date::floor<date::days>(local);
    const date::year_month_day calendar{day};
    const auto minutes = static_cast<unsigned>((local - day).count());
    std::string out(kDays.at(date::weekday{day}.c_encoding()));
    out += " " + std::to_string(static_cast<unsigned>(calendar.day())) + " ";
    out += kMonths.at(static_cast<unsigned>(calendar.month()) - 1);
    out += " " + twoDigits(minutes / 60) + ":" + twoDigits(minutes % 60) + " UTC";
    if (offset_minutes != 0) {
        const auto size = static_cast<unsigned>(std::abs(offset_minutes));
        out += offset_minutes < 0 ? "-" : "+";
        out += std::to_string(size / 60);
        out += size % 60 == 0 ? std::string() : ":" + twoDigits(size % 60);
    }
    return out;
}

} // namespace

std::string readableLine(const Facts& facts)
{
    return (facts.demo ? "DEMO " : "") + facts.number + " DO NOT CUT HEAT FILL OR MOVE. ONLY THE TABLET RELEASES. PRINTED "
        + localTime(facts.issued_ms, facts.offset_minutes);
}

std::string write(const Facts& facts, const people::Device& device)
{
    const std::string line = readableLine(facts);
    const std::string body = bodyOf(facts);
    const Signature signature = device.signTag(signedHash(line, body));
    std::string bytes = body;
    putId(bytes, signature, kSignatureSize);
    return line + " " + std::string(kMark) + " " + canon::toBase32(bytesOf(bytes));
}

tl::expected<Facts, TagFault> read(std::string_view text, const std::map<DeviceId, PublicKey>& devices)
{
    const auto last = text.rfind(' ');
    if (last == std::string_view::npos) {
        return tl::unexpected(TagFault::NotATag);
    }
    const std::string_view head = text.substr(0, last);
    const std::string mark = " " + std::string(kMark);
    if (!head.ends_with(mark)) {
        return tl::unexpected(TagFault::NotATag);
    }
    const std::string_view line = head.substr(0, head.size() - mark.size());
    const auto bytes = canon::fromBase32(text.substr(last + 1));
    if (!bytes || bytes->size() != kBodySize + kSignatureSize) {
        return tl::unexpected(TagFault::Damaged);
    }
    std::size_t at = 0;
    if (take(*bytes, at, 1) != kVersion) {
        return tl::unexpected(TagFault::UnknownVersion);
    }
    Facts facts;
    facts.demo = take(*bytes, at, 1) == 1;
    YardId yard;
    takeId(*bytes, at, yard, 4);
    takeId(*bytes, at, facts.vessel, 16);
    facts.number = bytes->substr(at, kNumberSize);
    at += kNumberSize;
    facts.number.resize(std::min(facts.number.find('\0'), facts.number.size()));
    facts.serial = static_cast<std::int64_t>(take(*bytes, at, 4));
    takeId(*bytes, at, facts.head, 32);
    facts.issued_ms = static_cast<std::int64_t>(take(*bytes, at, 6));
    facts.offset_minutes = static_cast<std::int16_t>(take(*bytes, at, 2));
    const auto state = take(*bytes, at, 1);
    if (state < 1 || state > 7) {
        return tl::unexpected(TagFault::Damaged);
    }
    facts.state = static_cast<TagState>(state);
    facts.until_ms = static_cast<std::int64_t>(take(*bytes, at, 6));
    DeviceId key;
    takeId(*bytes, at, key, kKeyIdSize);
    Signature signature;
    takeId(*bytes, at, signature, kSignatureSize);
    const auto device = std::ranges::find_if(
        devices, [&](const auto& one) { return std::equal(key.value.begin(), key.value.begin() + kKeyIdSize, one.first.value.begin()); });
    if (device == devices.end()) {
        return tl::unexpected(TagFault::UnknownDevice);
    }
    facts.device = device->first;
    facts.yard = yard;
    if (!people::verifies(device->second, people::kTagDomain, signedHash(line, bytes->substr(0, kBodySize)), signature)) {
        return tl::unexpected(TagFault::BadSignature);
    }
    return readableLine(facts) == line ? tl::expected<Facts, TagFault>(facts) : tl::unexpected(TagFault::LineDiffers);
}

std::string shortCode(const Hash& head)
{
    const std::string symbols = canon::toBase32(std::span(head.value).first(5));
    return symbols.substr(0, 4) + "-" + symbols.substr(4, 4) + "-" + canon::base32Check(symbols);
}

tl::expected<std::string, CodeFault> readShortCode(std::string_view typed)
{
    std::string symbols;
    for (const char c : typed) {
        if (c != '-' && c != ' ') {
            symbols += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        }
    }
    if (symbols.size() != 9) {
        return tl::unexpected(CodeFault::Form);
    }
    const char check = symbols.back();
    symbols.pop_back();
    const auto bytes = canon::fromBase32(symbols);
    if (!bytes) {
        return tl::unexpected(CodeFault::Form);
    }
    symbols = canon::toBase32(bytesOf(*bytes));
    if (canon::base32Check(symbols) != check) {
        return tl::unexpected(CodeFault::Check);
    }
    return symbols;
}

bool matches(std::string_view symbols, const Hash& head) { return canon::toBase32(std::span(head.value).first(5)) == symbols; }

} // namespace brimful::tag
