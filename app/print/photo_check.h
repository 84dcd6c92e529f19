// What can be seen in a photograph before it is taken: enough light, sharp, and whose tag. It warns and never refuses.
#pragma once

#include <QImage>

#include <optional>
#include <string>

namespace brimful::tablet {

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

    [[nodiscard]] bool dark() const { return light < kLeastLight; }
    [[nodiscard]] bool blurred() const { return !symbol && edges < kLeastEdges; } // what can be read is sharp enough
};

[[nodiscard]] double lightOf(const QImage& grey);
[[nodiscard]] double edgesOf(const QImage& grey); // of Format_Grayscale8, at least 3 x 3
[[nodiscard]] Seen lookAt(const QImage& picture);

} // namespace brimful::tablet
