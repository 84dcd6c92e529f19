// Which packs rule together: the carried pack, the law of a place as an overlay on it, a shop's own overlay; and what these
// overlays ask beyond the pack.
#pragma once

#include "core/rules/pack.h"

namespace brimful::rules {

inline constexpr std::string_view kCarriedPack = "base";

struct Ruling {
    PackSource pack;
    std::vector<PackSource> overlays; // in the order of their ids, the shop's own last
};

[[nodiscard]] std::vector<std::string> carriedLaws(); // ids of the carried overlays on the carried pack
// With one law; with "" all of them; with kCarriedPack none. Nothing where no law has that id.
[[nodiscard]] std::optional<Ruling> carriedRuling(std::string_view law);
[[nodiscard]] tl::expected<Pack, std::vector<LoadError>> load(const Ruling&);

// A pack's files as one text, and back. Cases are left out: they say nothing of what is granted.
[[nodiscard]] std::string packText(const PackSource&);
[[nodiscard]] std::optional<PackSource> packOfText(std::string_view);

// One thing that an overlay says beyond the pack. Sources and their marks are the overlay's.
struct Tightening {
    enum class What : std::uint8_t { Parameter, Life, AtGiving, Require, Stop };
    What what{What::Parameter};
    std::string id; // parameter, step or rule
    std::string hold_point; // of a rule
    std::string from, to; // a parameter as it was typed
    std::int64_t from_ms{}, to_ms{}; // a life; 0: did not lapse
    bool tighter{true}; // false: the pack asks as much already
    std::string by; // the overlay
    std::vector<SourceRef> sources;
};
[[nodiscard]] std::vector<Tightening> tightenings(const Pack&);

} // namespace brimful::rules
