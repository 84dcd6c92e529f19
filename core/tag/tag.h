// The status tag as text: a line that any phone can read and that forbids, a space, "B1", a space, and a signed payload
// in Crockford Base32; all of it in the QR alphanumeric set. The tag carries no permission: it is a witness that the
// ledger had reached a certain entry when it was printed.
#pragma once

#include "core/people/device.h"
#include "core/people/ids.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace brimful::tag {

// PERSISTED, as one byte in the payload.
enum class TagState : std::uint8_t { Held = 1, Released = 2, Stopped = 3, Refused = 4, Closed = 5, FireWatch = 6, Draining = 7 };

struct Facts {
    YardId yard;
    VesselId vessel;
    std::string number; // [A-Z0-9-]{1,12}
    std::int64_t serial{}; // 1, 2, 3 ... per vessel
    Hash head; // hash of the tag-printed entry
    std::int64_t issued_ms{}; // wall
    std::int32_t offset_minutes{}; // local time was UTC + this
    TagState state{TagState::Held};
    std::int64_t until_ms{}; // 0: none; the release ends then at the latest
    DeviceId device;
    bool demo{}; // the line then begins with DEMO
    bool operator==(const Facts&) const = default;
};

// "NQ-01 DO NOT CUT HEAT FILL OR MOVE. ONLY THE TABLET RELEASES. PRINTED SUN 14 JUN 12:30 UTC-4"
// Alphanumeric set of ISO/IEC 18004 only: 0-9 A-Z space $%*+-./: (no brackets).
[[nodiscard]] std::string readableLine(const Facts&);

// Line, " B1 ", payload of 244 symbols; signed by the device over both. 340 characters for a short number: a QR symbol of
// version 13 at level Q (352 at most).
[[nodiscard]] std::string write(const Facts&, const people::Device&);

enum class TagFault : std::uint8_t { NotATag, Damaged, UnknownVersion, UnknownDevice, BadSignature, LineDiffers };

// Splits at the last space, checks form, signature and line. A text that does not verify is not genuine and holds nothing.
[[nodiscard]] tl::expected<Facts, TagFault> read(std::string_view text, const std::map<DeviceId, PublicKey>& devices);

// For a card written by hand: 8 symbols of the entry's hash and a check character, "7K4P-9QXR-2".
[[nodiscard]] std::string shortCode(const Hash& head);
enum class CodeFault : std::uint8_t { Form, Check };
[[nodiscard]] tl::expected<std::string, CodeFault> readShortCode(std::string_view typed); // the 8 symbols, normalised
[[nodiscard]] bool matches(std::string_view symbols, const Hash& head);

} // namespace brimful::tag
