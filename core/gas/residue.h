// How little liquid left behind brings a vessel to its lower flammable limit.
#pragma once

#include "core/gas/substances.h"

namespace brimful::gas {

struct Residue {
    quantity::Mass vapour; // spread evenly through the volume at the limit
    quantity::Volume liquid; // the same mass as liquid; 0 when its density is not known
};

// m = limit * V * M / Vm(T) for a vessel open to the air (the air it displaces leaves). Published cross-check: 36.39 ft3
// of vapour from a gallon of liquid propane. Valid for ideal gas at atmospheric pressure; evenly mixed is the best case:
// near the liquid the limit is reached with less. Nothing for a substance without a published limit or molar mass.
[[nodiscard]] std::optional<Residue> residueToLimit(const Substance&, const quantity::Volume&, quantity::Temperature);

// Whether liquid can stand in a vessel that shows no pressure, with its coldest steel at this temperature: at or below the
// boiling point at one atmosphere (n-butane: -0.5 degC, NIOSH Pocket Guide). True as well when the substance burns and no
// boiling point is known: unknown is never empty.
[[nodiscard]] bool liquidMayStand(const Substance&, quantity::Temperature coldest);

} // namespace brimful::gas
