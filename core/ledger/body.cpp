#include "core/ledger/body.h"

#include "core/canon/json.h"
#include "core/ledger/body_photos.h"
#include "core/ledger/entry.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace brimful::ledger {

namespace {

constexpr std::size_t kIdDigits = 32;
constexpr std::size_t kHashDigits = 64;

constexpr auto kIsDigit = [] {
    std::array<unsigned char, 256> digits{};
    for (const char c : std::string_view("0123456789abcdef")) {
        digits.at(static_cast<unsigned char>(c)) = 1;
    }
    return digits;
}();

bool isHex(std::string_view text, std::size_t digits)
{
    unsigned char all = text.size() == digits ? 1 : 0;
    for (const char c : text) {
        all = static_cast<unsigned char>(all & kIsDigit[static_cast<unsigned char>(c)]); // NOLINT(*-constant-array-index)
    }
    return all != 0;
}

bool readText(std::string_view value, std::string_view& out)
{
    if (value.front() != '"') {
        return false;
    }
    out = value.substr(1, value.size() - 2);
    return true;
}

bool readHex(std::string_view value, std::size_t digits, std::string_view& out) { return readText(value, out) && isHex(out, digits); }

bool readInteger(std::string_view value, std::int64_t& out)
{
    return std::from_chars(value.data(), value.data() + value.size(), out).ec == std::errc();
}

// ["<64 hex>","<64 hex>"], rising, at least one.
bool readHashes(std::string_view value, std::vector<std::string_view>& out)
{
    constexpr std::size_t kItem = kHashDigits + 3;
    if (value.front() != '[' || value.size() < 2 || (value.size() - 1) % kItem != 0 || value.size() == 1) {
        return false;
    }
    for (std::size_t at = 1; at < value.size(); at += kItem) {
        const std::string_view hash = value.substr(at + 1, kHashDigits);
        if (value[at] != '"' || value[at + kHashDigits + 1] != '"' || !isHex(hash, kHashDigits) || (!out.empty() && hash <= out.back())) {
            return false;
        }
        out.push_back(hash);
    }
    return true;
}

bool readMember(std::string_view key, std::string_view value, Body& body, std::int64_t& version)
{
    std::int64_t tag = 0;
    return key == "attachments" ? readHashes(value, body.attachments)
        : key == "boot"         ? readInteger(value, body.boot)
        : key == "boot_id"      ? readHex(value, kIdDigits, body.boot_id)
        : key == "clock"        ? readText(value, body.clock)
        : key == "device"       ? readHex(value, kIdDigits, body.device)
        : key == "kind"         ? readText(value, body.kind)
        : key == "pack"         ? readHex(value, kHashDigits, body.pack)
        : key == "parents"      ? readHashes(value, body.parents)
        : key == "payload"      ? value.front() == '{' && !(body.payload = value).empty()
        : key == "person"       ? readHex(value, kIdDigits, body.person)
        : key == "prev"         ? readHex(value, kHashDigits, body.prev)
        : key == "role"         ? readText(value, body.role)
        : key == "seq"          ? readInteger(value, body.seq)
        : key == "tag"          ? readInteger(value, tag)
        : key == "v"            ? readInteger(value, version)
        : key == "vessel"       ? readHex(value, kIdDigits, body.vessel)
        : key == "wall"         ? readInteger(value, body.wall)
                                : key == "yard" && readHex(value, kIdDigits, body.yard);
}

} // namespace

std::optional<Body> readBody(std::string_view bytes)
{
    constexpr std::size_t kMembers = 18; // that a body can have
    std::vector<canon::Slice> members;
    members.reserve(kMembers);
    if (bytes.size() > kLargestBody || !canon::membersOf(bytes, members)) {
        return std::nullopt;
    }
    Body body;
    std::int64_t version = 0;
    unsigned whole = 0; // of the members that must stand: boot, seq and wall have no value that means absent
    bool has_role = false;
    for (const auto& [key, value] : members) {
        if (!readMember(key, value, body, version)) {
            return std::nullopt;
        }
        whole += key == "boot" || key == "wall" ? 1U : 0U;
        has_role = has_role || key == "role";
    }
    const bool clock = body.clock == "ok" || body.clock == "suspect" || body.clock == "confirmed";
    const bool complete = whole == 2 && body.seq >= 1 && version == 1 && clock && kindByWord(body.kind) && !body.boot_id.empty()
        && !body.device.empty() && !body.yard.empty() && !body.payload.empty() && has_role == !body.person.empty()
        && (body.kind != "evidence" || photosHold(body.payload, body.attachments));
    return complete ? std::optional(std::move(body)) : std::nullopt;
}

} // namespace brimful::ledger
