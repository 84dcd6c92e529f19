#include "app/print/photo_check.h"

#include "app/print/pages.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

namespace brimful::print {

double lightOf(const QImage& grey)
{
    double sum = 0;
    for (int y = 0; y < grey.height(); ++y) {
        const uchar* line = grey.constScanLine(y);
        for (int x = 0; x < grey.width(); ++x) {
            sum += line[x];
        }
    }
    const double count = static_cast<double>(grey.width()) * grey.height();
    return count > 0 ? sum / count : 0;
}

double edgesOf(const QImage& grey)
{
    double sum = 0;
    double squares = 0;
    for (int y = 1; y + 1 < grey.height(); ++y) {
        const uchar* above = grey.constScanLine(y - 1);
        const uchar* line = grey.constScanLine(y);
        const uchar* below = grey.constScanLine(y + 1);
        for (int x = 1; x + 1 < grey.width(); ++x) {
            const double laplacian = above[x] + below[x] + line[x - 1] + line[x + 1] - 4 * line[x];
            sum += laplacian;
            squares += laplacian * laplacian;
        }
    }
    const double count = static_cast<double>(grey.width() - 2) * (grey.height() - 2);
    return count > 0 ? squares / count - sum / count * (sum / count) : 0;
}

std::optional<ledger::Look> lookOf(const QImage& grey)
{
    constexpr int kSide = 32;
    constexpr int kWaves = 8; // along each side
    const QImage small =
        grey.scaled(kSide, kSide, Qt::IgnoreAspectRatio, Qt::SmoothTransformation).convertToFormat(QImage::Format_Grayscale8);
    const double middle = lightOf(small);
    double squares = 0;
    for (int y = 0; y < kSide; ++y) {
        const uchar* line = small.constScanLine(y);
        squares =
            std::accumulate(line, line + kSide, squares, [&](double sum, uchar one) { return sum + (one - middle) * (one - middle); });
    }
    if (std::sqrt(squares / (kSide * kSide)) < kLeastSpread) {
        return std::nullopt;
    }
    const auto wave = [](int number, int at) { return std::cos(std::numbers::pi * number * (2 * at + 1) / (2 * kSide)); };
    std::vector<double> waves;
    waves.reserve(kWaves * kWaves);
    for (int down = 1; down <= kWaves; ++down) {
        for (int across = 1; across <= kWaves; ++across) {
            double sum = 0;
            for (int y = 0; y < kSide; ++y) {
                const uchar* line = small.constScanLine(y);
                for (int x = 0; x < kSide; ++x) {
                    sum += line[x] * wave(across, x) * wave(down, y);
                }
            }
            waves.push_back(sum);
        }
    }
    std::vector<double> sorted = waves;
    std::ranges::sort(sorted);
    const double median = (sorted[sorted.size() / 2 - 1] + sorted[sorted.size() / 2]) / 2;
    ledger::Look look;
    for (std::size_t i = 0; i < waves.size(); ++i) {
        if (waves[i] > median) {
            look.value.at(i / 8) = static_cast<std::uint8_t>(look.value.at(i / 8) | 0x80U >> i % 8);
        }
    }
    return look;
}

Seen lookAt(const QImage& picture)
{
    if (picture.isNull()) {
        return {};
    }
    const QImage small = picture.width() > kCheckedWidth ? picture.scaledToWidth(kCheckedWidth, Qt::SmoothTransformation) : picture;
    const QImage grey = small.convertToFormat(QImage::Format_Grayscale8);
    Seen seen{lightOf(grey), edgesOf(grey), readSymbol(picture), {}};
    if (!seen.dark()) {
        seen.look = lookOf(grey);
    }
    return seen;
}

} // namespace brimful::print
