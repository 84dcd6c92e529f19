// What can be seen in a photograph: enough light, sharp, whose tag, and what it looks like. It warns and never refuses.
#pragma once

#include "core/ledger/photos.h"

#include <QImage>

#include <optional>
#include <string>

namespace brimful::print {

inline constexpr int kCheckedWidth = 640; // pixels across: limits hold for a picture made so small

// Mean brightness, 0 to 255. Mark: proposal; dusk in a shop is to be tried.
inline constexpr double kLeastLight = 40;
// Variance of the Laplacian of the brightness (Pech-Pacheco and others, 2000, "Diatom autofocusing in brightfield microscopy", from
// memory): a picture without edges has none. Mark: proposal; it says "look again", not what the picture is worth.
inline constexpr double kLeastEdges = 60;

struct Seen {
    double light{};
    double edges{};
    std::optional<std::string> symbol; // text of a QR symbol
    std::optional<ledger::Look> look; // absent: too dark or even to be told from others

    [[nodiscard]] bool dark() const { return light < kLeastLight; }
    [[nodiscard]] bool blurred() const
    {
        return !dark() && !symbol && edges < kLeastEdges;
    } // in the dark nobody can tell; what can be read is sharp enough
};

[[nodiscard]] double lightOf(const QImage& grey);
[[nodiscard]] double edgesOf(const QImage& grey); // of Format_Grayscale8, at least 3 x 3
// Standard deviation of the brightness: a picture more even than that is not told from others. Mark: proposal.
inline constexpr double kLeastSpread = 8;
// What it looks like: the signs against their median of the 8 x 8 lowest waves but the constant ones of its brightness, made 32 x 32,
// row by row from the lowest ("Implementation and Benchmarking of Perceptual Image Hash Functions", 2010, the hash by discrete cosine
// transform; its steps from memory).
[[nodiscard]] std::optional<ledger::Look> lookOf(const QImage& grey);
[[nodiscard]] Seen lookAt(const QImage& picture);

} // namespace brimful::print
