// What a hand typed into what an entry keeps: every fact checked against the pack, quantities exact, files by hash.
#include "core/yard/state.h"

#include "core/quantity/recorded.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <unistd.h>
#include <utility>

namespace brimful::yard {

using canon::Json;
using report::Why;
using rules::FactKind;

namespace {

constexpr std::uintmax_t kLargestFile = 64ULL * 1024 * 1024;

bool startsWith(std::string_view bytes, std::string_view start) { return bytes.substr(0, start.size()) == start; }

std::string_view pictureExtension(std::string_view bytes)
{
    if (startsWith(bytes, "\xff\xd8\xff")) {
        return ".jpg";
    }
    if (startsWith(bytes, "\x89PNG\r\n\x1a\n")) {
        return ".png";
    }
    return {};
}

std::string_view documentExtension(std::string_view bytes)
{
    if (startsWith(bytes, "%PDF-")) {
        return ".pdf";
    }
    const std::string_view picture = pictureExtension(bytes);
    return picture.empty() ? std::string_view(".txt") : picture;
}

Outcome<Json> quantityOf(const Json& given, quantity::Dimension dimension, const std::string& path)
{
    std::string typed = given.text;
    if (given.is(canon::Type::Object)) {
        typed = std::string(given.textOf("typed"));
    }
    if (typed.empty()) {
        return refused(Why::BadQuantity, path, std::string(quantity::dimensionName(dimension)));
    }
    const auto recorded = quantity::record(typed, dimension);
    if (!recorded) {
        std::string expected = recorded.error().expected;
        if (expected.empty()) {
            expected = quantity::dimensionName(dimension);
        }
        return refused(Why::BadQuantity, path, expected, typed);
    }
    Json out = Json::object();
    out.set("count", recorded->count).set("typed", recorded->typed).set("unit", recorded->unit);
    return out;
}

} // namespace

Why whyOfErrno(int code)
{
    switch (code) {
    case ENOSPC:
    case EDQUOT:
        return Why::DiskFull;
    case EACCES:
    case EPERM:
    case EROFS:
    case ENOENT:
    case ENOTDIR:
        return Why::NoPermission;
    default:
        return Why::InputOutput;
    }
}

int writeDurably(const std::filesystem::path& file, std::string_view bytes)
{
    const std::filesystem::path part = file.string() + ".part";
    const int out = ::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644); // NOLINT(cppcoreguidelines-pro-type-vararg)
    if (out < 0) {
        return errno;
    }
    int error = 0;
    for (std::size_t written = 0; error == 0 && written < bytes.size();) {
        const auto step = ::write(out, bytes.data() + written, bytes.size() - written);
        if (step < 0) {
            error = errno;
        } else {
            written += static_cast<std::size_t>(step);
        }
    }
    if (error == 0 && ::fsync(out) != 0) {
        error = errno;
    }
    ::close(out);
    if (error == 0 && ::rename(part.c_str(), file.c_str()) != 0) {
        error = errno;
    }
    if (error != 0) {
        ::unlink(part.c_str());
        return error;
    }
    const int shelf = ::open(file.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); // NOLINT(cppcoreguidelines-pro-type-vararg)
    if (shelf < 0 || ::fsync(shelf) != 0) {
        error = errno;
    }
    if (shelf >= 0) {
        ::close(shelf);
    }
    return error;
}

// Of which vessels an entry that stands names this file.
Outcome<std::set<std::optional<VesselId>>> Yard::State::vesselsNaming(const Hash& file) const
{
    const std::string hex = canon::toHex(file);
    std::map<Hash, std::optional<VesselId>> naming;
    std::set<Hash> withdrawn;
    const auto read = ledger.stream([&](const ledger::Stored& row) {
        const bool corrects = row.body.find(R"("kind":"corrected")") != std::string::npos;
        const auto entry =
            corrects || row.body.find(hex) != std::string::npos ? ledger::decode(row.body) : tl::unexpected(ledger::EntryError{});
        if (entry && entry->kind == ledger::Kind::Corrected) {
            withdrawn.insert(canon::fromHex<Hash>(entry->payload.textOf("withdraws")).value_or(Hash{}));
        } else if (entry && std::ranges::find(entry->attachments, file) != entry->attachments.end()) {
            naming.emplace(row.hash, entry->vessel);
        }
        return true;
    });
    if (!read) {
        return tl::unexpected(refusalOf(read.error(), folder));
    }
    std::set<std::optional<VesselId>> of;
    for (const auto& [entry, vessel] : naming) {
        if (!withdrawn.contains(entry)) {
            of.insert(vessel);
        }
    }
    return of;
}

// What would be kept of a file: a photograph made bare, a paper as it is; never a photograph that an entry names already.
Outcome<Yard::State::Bytes> Yard::State::bytesOf(const std::filesystem::path& file, bool picture, const std::string& path) const
{
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    if (error) {
        return refused(Why::NoSuchFile, path, {}, file.string());
    }
    if (size > kLargestFile) {
        return refused(Why::PictureTooLarge, path, std::to_string(kLargestFile), std::to_string(size));
    }
    std::ifstream in(file, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
    std::optional<report::Photograph> bare;
    if (picture && pictures && !pictureExtension(bytes).empty()) {
        bare = pictures(bytes);
        if (!bare) {
            return refused(Why::NotAPicture, path, "JPEG, PNG", file.filename().string());
        }
        bytes = std::exchange(bare->bytes, {});
    }
    const std::string_view extension = picture ? pictureExtension(bytes) : documentExtension(bytes);
    if (extension.empty()) {
        return refused(Why::NotAPicture, path, "JPEG, PNG", file.filename().string());
    }
    const Hash hash = canon::sha256(bytes);
    if (picture && carried_by.contains(hash)) {
        const auto used = vesselsNaming(hash); // its record may have been withdrawn
        if (!used) {
            return tl::unexpected(used.error());
        }
        if (!used->empty()) {
            return refused(Why::PictureUsed, path);
        }
    }
    return Bytes{std::move(bytes), extension, std::move(bare)};
}

Outcome<Hash> Yard::State::keepBytes(std::string_view bytes, std::string_view extension) const
{
    const Hash hash = canon::sha256(bytes);
    const std::string name = canon::toHex(hash);
    std::error_code error;
    const auto shelf = folder / "evidence" / name.substr(0, 2);
    std::filesystem::create_directories(shelf, error);
    const auto kept = shelf / (name + std::string(extension));
    if (!error && std::filesystem::exists(kept)) {
        return hash;
    }
    if (const int code = error ? error.value() : writeDurably(kept, bytes); code != 0) {
        return refused(whyOfErrno(code), kept.string(), {}, std::strerror(code)); // NOLINT(concurrency-mt-unsafe)
    }
    return hash;
}

namespace {

// One value of one fact; files and people are looked up by the caller's functions.
struct ValueReader {
    Yard::State& state;
    Yard::State::Facts& facts;
    const std::string& root;

    Outcome<Json> choice(const rules::Fact& fact, const Json& given, const std::string& path) const
    {
        if (std::ranges::find(fact.options, given.text) != fact.options.end()) {
            return given;
        }
        std::string known;
        for (const std::string& option : fact.options) {
            known += (known.empty() ? "" : ", ") + option;
        }
        return refused(Why::UnknownChoice, path, known, given.text);
    }

    Outcome<Json> file(const rules::Fact& fact, const Json& given, const std::string& path) const
    {
        const bool photo = fact.kind == FactKind::Photo;
        auto bytes = state.bytesOf(given.text, photo, path);
        const auto hash = bytes ? state.keepBytes(bytes->bytes, bytes->extension) : tl::unexpected(bytes.error());
        if (!hash) {
            return tl::unexpected(hash.error());
        }
        facts.attachments.push_back(*hash);
        if (photo) {
            facts.shots.insert_or_assign(*hash, Shot{path.substr(root.size() + 1), std::move(bytes->seen)});
        }
        return Json(canon::toHex(*hash));
    }

    Outcome<Json> person(const Json& given, const std::string& path) const
    {
        const ledger::Person* found = state.yard.personNamed(given.text);
        if (found == nullptr || found->retired) {
            return refused(Why::UnknownPerson, path, {}, given.text);
        }
        return Json(canon::toHex(found->id));
    }

    Outcome<Json> operator()(const rules::Fact& fact, const Json& given, const std::string& path) const
    {
        switch (fact.kind) {
        case FactKind::Choice:
            return choice(fact, given, path);
        case FactKind::Quantity:
            return quantityOf(given, fact.dimension, path);
        case FactKind::Count:
            if (!given.is(canon::Type::Integer)) {
                return refused(Why::BadFact, path, "1, 2, 3", given.text);
            }
            return given;
        case FactKind::Text:
        case FactKind::Echo:
            if (!given.is(canon::Type::String) || given.text.empty()) {
                return refused(Why::BadFact, path, "text");
            }
            return given;
        case FactKind::Photo:
        case FactKind::Document:
            return file(fact, given, path);
        case FactKind::Person:
            return person(given, path);
        case FactKind::Derived:
        case FactKind::Tag:
            break;
        }
        return refused(Why::UnknownFact, path);
    }
};

Outcome<Json> rowsOf(
    const rules::Pack& pack, const rules::Register& table, const Json& given, const std::string& path, const ValueReader& read)
{
    if (!given.is(canon::Type::Array)) {
        return refused(Why::BadFact, path, "[{\"name\": ...}]");
    }
    Json rows = Json::array();
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        const Json& row = given.items[i];
        const std::string at = path + "[" + std::to_string(i) + "]";
        if (row.textOf("name").empty()) {
            return refused(Why::MissingFact, at + ".name");
        }
        Json out = Json::object();
        for (const canon::Member& member : row.members) {
            if (member.key == "name") {
                out.set("name", member.value);
                continue;
            }
            if (member.key == "age") {
                auto age = quantityOf(member.value, quantity::Dimension::Duration, at + ".age");
                if (!age) {
                    return age;
                }
                out.set("age", std::move(*age));
                continue;
            }
            const auto column = std::ranges::find_if(table.columns,
                [&](rules::Index fact) { return pack.facts[fact].key == member.key && pack.facts[fact].kind != FactKind::Derived; });
            if (column == table.columns.end()) {
                return refused(Why::UnknownFact, at + "." + member.key);
            }
            auto value = read(pack.facts[*column], member.value, at + "." + member.key);
            if (!value) {
                return value;
            }
            out.set(member.key, std::move(*value));
        }
        for (const rules::Index fact : table.columns) {
            const rules::Fact& column = pack.facts[fact];
            if (!column.optional && column.kind != FactKind::Derived && out.find(column.key) == nullptr) {
                return refused(Why::MissingFact, at + "." + column.key);
            }
        }
        rows.items.push_back(std::move(out));
    }
    return rows;
}

} // namespace

Outcome<Json> Yard::State::valueOf(const rules::Fact& fact, const Json& given, const std::string& path)
{
    Facts none;
    const std::string root;
    return ValueReader{*this, none, root}(fact, given, path);
}

Outcome<Yard::State::Facts> Yard::State::factsOf(const rules::Step& step, const Json& given,
    const std::map<std::string, std::filesystem::path>& files, const std::string& root, bool complete)
{
    Json all = given;
    for (const auto& [key, file] : files) {
        all.set(key, file.string());
    }
    Facts facts;
    const ValueReader read{*this, facts, root};
    for (const canon::Member& member : all.members) {
        const std::string path = root + "." + member.key;
        const auto fact = std::ranges::find_if(
            step.facts, [&](rules::Index one) { return pack->facts[one].key == member.key && pack->facts[one].reg == rules::kNone; });
        const auto table = std::ranges::find_if(step.registers, [&](rules::Index one) { return pack->registers[one].key == member.key; });
        Outcome<Json> value = refused(Why::UnknownFact, path);
        if (fact != step.facts.end()) {
            value = read(pack->facts[*fact], member.value, path);
        } else if (table != step.registers.end()) {
            value = rowsOf(*pack, pack->registers[*table], member.value, path, read);
        }
        if (!value) {
            return tl::unexpected(value.error());
        }
        facts.payload.set(member.key, std::move(*value));
    }
    if (complete) {
        for (const rules::Index one : step.facts) {
            const rules::Fact& fact = pack->facts[one];
            const bool asked = fact.reg == rules::kNone && fact.kind != FactKind::Derived && fact.kind != FactKind::Tag && !fact.optional;
            if (asked && facts.payload.find(fact.key) == nullptr) {
                return refused(Why::MissingFact, root + "." + fact.key);
            }
        }
        for (const rules::Index one : step.registers) {
            if (facts.payload.find(pack->registers[one].key) == nullptr) {
                return refused(Why::MissingFact, root + "." + pack->registers[one].key);
            }
        }
    }
    return facts;
}

} // namespace brimful::yard
