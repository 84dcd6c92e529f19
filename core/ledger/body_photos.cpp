// The verifier's own look at what a record says of its photographs: FORMAT.md, "Photographs".
#include "core/ledger/body_photos.h"

#include "core/canon/json.h"

#include <algorithm>
#include <array>
#include <cstring>

namespace brimful::ledger {

namespace {

using Slices = std::vector<canon::Slice>;

constexpr std::string_view kMember = "\"photos\":"; // a quote inside a text has a stroke before it: this stands for a key only
constexpr std::array<std::string_view, 4> kWords{"blurred", "dark", "other-tag", "tag"};

bool isText(std::string_view value, std::size_t size, std::string_view signs)
{
    return value.size() == size + 2 && value.front() == '"' && value.substr(1, size).find_first_not_of(signs) == std::string_view::npos;
}
bool isHex(std::string_view value, std::size_t digits) { return isText(value, digits, "0123456789abcdef"); }

// ["dark","tag"]: known words, rising.
bool areWords(std::string_view value)
{
    if (value.size() < 2 || value.front() != '[') {
        return false;
    }
    std::string_view rest = value.substr(1, value.size() - 2);
    std::string_view before;
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find(','), rest.size());
        const std::string_view item = rest.substr(0, end);
        const std::string_view word = item.size() < 2 ? item : item.substr(1, item.size() - 2);
        if (item.size() < 2 || item.front() != '"' || std::ranges::find(kWords, word) == kWords.end() || word <= before) {
            return false;
        }
        before = word;
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return true;
}

bool isNote(std::string_view bytes)
{
    Slices members;
    bool came = false;
    if (!canon::membersOf(bytes, members)) {
        return false;
    }
    for (const auto& [key, value] : members) {
        came = came || key == "how";
        const bool holds = key == "how" ? value == "\"camera\"" || value == "\"file\""
            : key == "found"            ? areWords(value)
            : key == "chalk"            ? isText(value, 4, "0123456789")
            : key == "look"             ? isHex(value, 16)
                                        : key == "alike" && isHex(value, 64);
        if (!holds) {
            return false;
        }
    }
    return came;
}

// As a value somewhere in the facts: as a key a colon would follow.
bool isNamed(std::string_view facts, std::string_view hash)
{
    const std::string text = '"' + std::string(hash) + '"';
    for (std::size_t at = facts.find(text); at != std::string_view::npos; at = facts.find(text, at + 1)) {
        if (facts.substr(at + text.size(), 1) != ":") {
            return true;
        }
    }
    return false;
}

} // namespace

bool photosHold(std::string_view payload, const std::vector<std::string_view>& attachments)
{
    if (::memmem(payload.data(), payload.size(), kMember.data(), kMember.size()) == nullptr) { // find() stops at every quote
        return true;
    }
    Slices members;
    if (!canon::membersOf(payload, members)) {
        return false;
    }
    const auto photos = std::ranges::find(members, std::string_view("photos"), &canon::Slice::key);
    if (photos == members.end()) {
        return true; // the key of something else
    }
    const auto facts = std::ranges::find(members, std::string_view("facts"), &canon::Slice::key);
    Slices notes;
    return canon::membersOf(photos->value, notes) && !notes.empty() && facts != members.end()
        && std::ranges::all_of(notes, [&](const canon::Slice& note) {
               const bool kept = std::ranges::find(attachments, note.key) != attachments.end();
               return kept && isNamed(facts->value, note.key) && isNote(note.value);
           });
}

} // namespace brimful::ledger
