#include "core/tag/tag.h"

#include <algorithm>
#include <span>

namespace brimful::tag {

namespace {

// PERSISTED. The payload, big-endian: version (1), state (1), yard (16), vessel (16), serial (4), head (32),
// issued (6, ms), offset (2, minutes), until (6, ms), first bytes of the device (4), signature (64).
constexpr std::uint8_t kVersion = 1;
constexpr std::string_view kMark = " B1 ";
constexpr std::size_t kDeviceBytes = 4; // enough to find the key among a yard's devices; the signature decides
constexpr std::size_t kSignatureBytes = 64;
constexpr std::size_t kPayloadBytes = 1 + 1 + 16 + 16 + 4 + 32 + 6 + 2 + 6 + kDeviceBytes + kSignatureBytes;
constexpr std::string_view kAfterNumber = " DO NOT CUT";
constexpr std::size_t kLongestNumber = 12;

void putNumber(std::string& out, std::uint64_t value, std::size_t bytes)
{
    for (std::size_t i = bytes; i-- > 0;) {
        out.push_back(static_cast<char>(static_cast<unsigned char>(value >> (8 * i))));
    }
}

void putBytes(std::string& out, std::span<const std::uint8_t> bytes)
{
    for (const std::uint8_t byte : bytes) {
        out.push_back(static_cast<char>(byte));
    }
}

// Reads the payload from the front; its length was checked before.
class Cursor {
public:
    explicit Cursor(std::string_view bytes)
        : m_rest(bytes)
    {
    }
    std::uint64_t number(std::size_t bytes)
    {
        std::uint64_t value = 0;
        for (const char c : take(bytes)) {
            value = (value << 8U) | static_cast<unsigned char>(c);
        }
        return value;
    }
    void into(std::span<std::uint8_t> out)
    {
        std::ranges::transform(take(out.size()), out.begin(), [](char c) { return static_cast<std::uint8_t>(c); });
    }
    std::string_view take(std::size_t bytes)
    {
        const std::string_view head = m_rest.substr(0, bytes);
        m_rest.remove_prefix(bytes);
        return head;
    }

private:
    std::string_view m_rest;
};

std::string signedPart(const Facts& facts)
{
    std::string out;
    putNumber(out, kVersion, 1);
    putNumber(out, static_cast<std::uint8_t>(facts.state), 1);
    putBytes(out, facts.yard.value);
    putBytes(out, facts.vessel.value);
    putNumber(out, static_cast<std::uint64_t>(facts.serial), 4);
    putBytes(out, facts.head.value);
    putNumber(out, static_cast<std::uint64_t>(facts.issued_ms), 6);
    putNumber(out, static_cast<std::uint16_t>(facts.offset_minutes), 2);
    putNumber(out, static_cast<std::uint64_t>(facts.until_ms), 6);
    putBytes(out, std::span(facts.device.value).first(kDeviceBytes));
    return out;
}

Hash toSign(std::string_view line, std::string_view part) { return canon::sha256(std::string(line).append(kMark).append(part)); }

bool isNumber(std::string_view number)
{
    return !number.empty() && number.size() <= kLongestNumber
        && std::ranges::all_of(number, [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-'; });
}

struct Read {
    Facts facts;
    std::string_view device;
    Signature signature;
};

// Everything of the payload that needs no key.
tl::expected<Read, TagFault> readPayload(std::string_view payload)
{
    const auto bytes = canon::fromBase32(payload);
    if (!bytes || bytes->empty()) {
        return tl::unexpected(TagFault::Damaged);
    }
    if (static_cast<std::uint8_t>(bytes->front()) != kVersion) {
        return tl::unexpected(TagFault::UnknownVersion);
    }
    const auto all = std::span(reinterpret_cast<const std::uint8_t*>(bytes->data()), bytes->size()); // NOLINT(*-reinterpret-cast)
    if (bytes->size() != kPayloadBytes || canon::toBase32(all) != payload) {
        return tl::unexpected(TagFault::Damaged);
    }
    Read out;
    Cursor cursor(*bytes);
    cursor.take(1);
    const std::uint64_t state = cursor.number(1);
    if (state < static_cast<std::uint64_t>(TagState::Held) || state > static_cast<std::uint64_t>(TagState::Draining)) {
        return tl::unexpected(TagFault::Damaged);
    }
    out.facts.state = static_cast<TagState>(state);
    cursor.into(out.facts.yard.value);
    cursor.into(out.facts.vessel.value);
    out.facts.serial = static_cast<std::int64_t>(cursor.number(4));
    cursor.into(out.facts.head.value);
    out.facts.issued_ms = static_cast<std::int64_t>(cursor.number(6));
    out.facts.offset_minutes = static_cast<std::int16_t>(cursor.number(2));
    out.facts.until_ms = static_cast<std::int64_t>(cursor.number(6));
    cursor.into(std::span(out.facts.device.value).first(kDeviceBytes));
    cursor.into(out.signature.value);
    return out;
}

// The number stands in the line only; the whole line must be what the facts give.
bool readLine(std::string_view line, Facts& facts)
{
    constexpr std::string_view kDemo = "DEMO ";
    for (const bool demo : {false, true}) {
        const std::size_t from = demo ? kDemo.size() : 0;
        const std::size_t end = line.find(kAfterNumber, from);
        if ((demo && !line.starts_with(kDemo)) || end == std::string_view::npos || !isNumber(line.substr(from, end - from))) {
            continue;
        }
        facts.demo = demo;
        facts.number = line.substr(from, end - from);
        if (readableLine(facts) == line) {
            return true;
        }
    }
    return false;
}

} // namespace

std::string write(const Facts& facts, const people::Device& device)
{
    const std::string line = readableLine(facts);
    std::string payload = signedPart(facts);
    const Signature signature = device.signTag(toSign(line, payload));
    putBytes(payload, signature.value);
    const auto bytes = std::span(reinterpret_cast<const std::uint8_t*>(payload.data()), payload.size()); // NOLINT(*-reinterpret-cast)
    return line + std::string(kMark) + canon::toBase32(bytes);
}

tl::expected<Facts, TagFault> read(std::string_view text, const std::map<DeviceId, PublicKey>& devices)
{
    while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) { // a scanner's closing key
        text.remove_suffix(1);
    }
    const std::size_t last = text.rfind(' ');
    if (last == std::string_view::npos) {
        return tl::unexpected(TagFault::NotATag);
    }
    const std::string_view head = text.substr(0, last);
    const std::size_t before = head.rfind(' ');
    if (before == std::string_view::npos || head.substr(before + 1).size() != 2 || head[before + 1] != 'B') {
        return tl::unexpected(TagFault::NotATag);
    }
    if (head[before + 2] != '1') {
        return tl::unexpected(TagFault::UnknownVersion);
    }
    const std::string_view line = head.substr(0, before);
    auto tag = readPayload(text.substr(last + 1));
    if (!tag) {
        return tl::unexpected(tag.error());
    }
    if (!readLine(line, tag->facts)) {
        return tl::unexpected(TagFault::LineDiffers);
    }
    const auto first = std::span(tag->facts.device.value).first(kDeviceBytes);
    const std::string part = signedPart(tag->facts);
    TagFault fault = TagFault::UnknownDevice;
    for (const auto& [device, key] : devices) {
        if (!std::ranges::equal(std::span(device.value).first(kDeviceBytes), first)) {
            continue;
        }
        if (people::verifies(key, people::kTagDomain, toSign(line, part), tag->signature)) {
            tag->facts.device = device;
            return tag->facts;
        }
        fault = TagFault::BadSignature;
    }
    return tl::unexpected(fault);
}

} // namespace brimful::tag
