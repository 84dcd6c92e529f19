#include "core/ledger/photos.h"

#include <algorithm>
#include <array>

namespace brimful::ledger {

using canon::Json;
using canon::Type;

namespace {

struct Word {
    std::string_view word;
    bool PhotoFound::*member;
};
// PERSISTED, in the order of their bytes.
constexpr std::array<Word, 4> kFound{
    {{"blurred", &PhotoFound::blurred}, {"dark", &PhotoFound::dark}, {"other-tag", &PhotoFound::other_tag}, {"tag", &PhotoFound::tag}}};
constexpr std::string_view kFoundWords = "blurred, dark, other-tag, tag";
constexpr std::string_view kCamera = "camera";
constexpr std::string_view kFile = "file";

tl::unexpected<EntryError> refused(EntryFault fault, std::string path, std::string_view expected)
{
    return tl::unexpected(EntryError{fault, std::move(path), std::string(expected)});
}

bool isSaid(const Json& value, std::string_view hex)
{
    return value.is(Type::String) ? value.text == hex : std::ranges::any_of(value.items, [&](const Json& item) {
        return isSaid(item, hex);
    }) || std::ranges::any_of(value.members, [&](const canon::Member& member) { return isSaid(member.value, hex); });
}

tl::expected<PhotoFound, EntryError> foundOf(const Json& words, const std::string& path)
{
    if (!words.is(Type::Array)) {
        return refused(EntryFault::WrongType, path, "[]");
    }
    PhotoFound found;
    std::string_view before;
    for (const Json& item : words.items) {
        const auto known = std::ranges::find(kFound, std::string_view(item.text), &Word::word);
        if (!item.is(Type::String) || known == kFound.end()) {
            return refused(EntryFault::UnknownWord, path, kFoundWords);
        }
        if (known->word <= before) {
            return refused(EntryFault::NotSorted, path, kFoundWords);
        }
        before = known->word;
        found.*known->member = true;
    }
    return found;
}

tl::expected<PhotoNote, EntryError> noteOf(const Json& one, const std::string& path)
{
    if (!one.is(Type::Object)) {
        return refused(EntryFault::WrongType, path, "{}");
    }
    PhotoNote note;
    bool came = false;
    for (const canon::Member& member : one.members) {
        const std::string at = path + "." + member.key;
        if (member.key == "how") {
            came = member.value.is(Type::String) && (member.value.text == kCamera || member.value.text == kFile);
            if (!came) {
                return refused(EntryFault::UnknownWord, at, "camera, file");
            }
            note.by_camera = member.value.text == kCamera;
        } else if (member.key == "found") {
            const auto found = foundOf(member.value, at);
            if (!found) {
                return tl::unexpected(found.error());
            }
            note.found = *found;
        } else if (member.key == "chalk") {
            note.chalk = member.value.text;
            if (note.chalk.size() != kChalkDigits || note.chalk.find_first_not_of("0123456789") != std::string::npos) {
                return refused(EntryFault::Range, at, "4 digits");
            }
        } else if (member.key == "look") {
            note.look = canon::fromHex<Look>(member.value.text);
            if (!note.look) {
                return refused(EntryFault::BadId, at, "16 hex digits");
            }
        } else if (member.key == "alike") {
            note.alike = canon::fromHex<Hash>(member.value.text);
            if (!note.alike) {
                return refused(EntryFault::BadId, at, "a SHA-256, hex");
            }
        } else {
            return refused(EntryFault::UnknownKey, at, "alike, chalk, found, how, look");
        }
    }
    if (!came) {
        return refused(EntryFault::MissingKey, path + ".how", "camera, file");
    }
    return note;
}

} // namespace

Json written(const PhotoNotes& photos)
{
    Json out = Json::object();
    for (const auto& [file, note] : photos) {
        Json one = Json::object();
        if (note.found) {
            Json words = Json::array();
            for (const Word& known : kFound) {
                if (*note.found.*known.member) {
                    words.items.emplace_back(known.word);
                }
            }
            one.set("found", std::move(words));
        }
        one.set("how", note.by_camera ? kCamera : kFile);
        if (!note.chalk.empty()) {
            one.set("chalk", note.chalk);
        }
        if (note.look) {
            one.set("look", canon::toHex(*note.look));
        }
        if (note.alike) {
            one.set("alike", canon::toHex(*note.alike));
        }
        out.set(canon::toHex(file), std::move(one));
    }
    return out;
}

tl::expected<PhotoNotes, EntryError> photosOf(const Json& payload, const std::vector<Hash>& attachments)
{
    const Json* photos = payload.find("photos");
    PhotoNotes out;
    if (photos == nullptr) {
        return out;
    }
    const std::string root = "payload.photos";
    if (!photos->is(Type::Object) || photos->members.empty()) {
        return refused(EntryFault::WrongType, root, "{\"<sha256>\":{}}");
    }
    const Json* facts = payload.find("facts");
    for (const canon::Member& member : photos->members) {
        const std::string path = root + "." + member.key;
        const auto file = canon::fromHex<Hash>(member.key);
        const bool kept = file && std::ranges::find(attachments, *file) != attachments.end();
        if (!kept || facts == nullptr || !isSaid(*facts, member.key)) {
            return refused(EntryFault::BadId, path, "a file that a fact names");
        }
        const auto note = noteOf(member.value, path);
        if (!note) {
            return tl::unexpected(note.error());
        }
        out.emplace(*file, *note);
    }
    return out;
}

} // namespace brimful::ledger
