// What an entry of evidence says of its photographs beside their hashes: how each came, and what a look at it found. Its bytes
// are FORMAT.md, "Photographs". For whoever reads the record; no rule asks for it.
#pragma once

#include "core/ledger/entry.h"

#include <map>

namespace brimful::ledger {

// What a picture looks like, in 64 bits: pictures that look alike differ in few of them.
using Look = canon::Bytes<8, struct LookTag>;

// PERSISTED as the words "blurred", "dark", "other-tag", "tag".
struct PhotoFound {
    bool blurred{};
    bool dark{};
    bool other_tag{}; // the tag of another vessel
    bool tag{}; // a tag of this vessel
    bool operator==(const PhotoFound&) const = default;
};

struct PhotoNote {
    bool by_camera{}; // PERSISTED as "camera": taken by the program that wrote the entry; false, "file": brought as one
    std::optional<PhotoFound> found; // absent: nobody looked
    std::string chalk; // four digits that were asked for, written beside the part; "" none were
    std::optional<Look> look; // absent: nobody looked, or it shows too little
    std::optional<Hash> alike; // file of the record's photograph that it looked like when it was taken in
    bool operator==(const PhotoNote&) const = default;
};

inline constexpr std::size_t kChalkDigits = 4; // PERSISTED

using PhotoNotes = std::map<Hash, PhotoNote>; // by the photograph's file

[[nodiscard]] canon::Json written(const PhotoNotes&); // as the member `photos` of a payload
// Of an entry's payload; none where it has no such member, as all that were written before there was one.
[[nodiscard]] tl::expected<PhotoNotes, EntryError> photosOf(const canon::Json& payload, const std::vector<Hash>& attachments);

} // namespace brimful::ledger
