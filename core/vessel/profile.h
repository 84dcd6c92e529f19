// The inside (or outside) of a vessel as a body of revolution: its radius along the axis, piece by piece. Bare metres and
// radians, because loops that integrate run through here; everything outside speaks in quantities.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace brimful::vessel {

// One piece, from x = from to x = to. Every head and shell is made of two kinds:
//   line: radius = offset + slope * x
//   arc:  radius = offset + stretch * sqrt(arcRadius^2 - (x - centre)^2)
// (a sphere: offset 0, stretch 1; an ellipse: offset 0, stretch R/depth; a knuckle: offset R - r, stretch 1).
struct Piece {
    double from{};
    double to{};
    bool arc{};
    double offset{};
    double slope{};
    double stretch{1};
    double arcRadius{};
    double centre{};

    [[nodiscard]] double radius(double x) const;
    // Integrals of pi radius^2, and of x pi radius^2, between two x of this piece, in closed form.
    [[nodiscard]] double volume(double low, double high) const;
    [[nodiscard]] double moment(double low, double high) const;
};

inline double Piece::radius(double x) const
{
    if (!arc) {
        return std::max(0.0, offset + slope * x);
    }
    const double w = x - centre;
    return offset + stretch * std::sqrt(std::max(0.0, (arcRadius - w) * (arcRadius + w)));
}

class Profile {
public:
    static constexpr std::size_t kMostPieces = 5;

    void add(const Piece& piece); // in order of x, at most kMostPieces
    [[nodiscard]] std::span<const Piece> pieces() const { return {m_pieces.data(), m_count}; }
    [[nodiscard]] double from() const { return m_pieces[0].from; }
    [[nodiscard]] double to() const { return m_pieces[m_count - 1].to; }
    [[nodiscard]] double radius(double x) const; // 0 outside
    [[nodiscard]] double volume() const;
    // Largest value of x * sine + radius * cosine over the body, cosine >= 0: how far it reaches in a direction.
    [[nodiscard]] double reach(double sine, double cosine) const;

private:
    std::array<Piece, kMostPieces> m_pieces{};
    std::size_t m_count{};
};

} // namespace brimful::vessel
