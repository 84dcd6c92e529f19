// Every live figure there is, in the order in which they are offered.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

struct FigureKind {
    const char* id; // the part that opens it is "figure:" and this
    QString (*title)();
    QString (*asks)(); // what it answers, in a few plain words
    std::unique_ptr<FigurePage> (*make)();
};

[[nodiscard]] std::span<const FigureKind> figureKinds();

} // namespace brimful::tablet
