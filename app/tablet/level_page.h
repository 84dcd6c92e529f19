// How much stands in it at a depth, how deep a volume stands, and what a stick would show. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class LevelPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    [[nodiscard]] canon::Json asked() const;
    void fillChart(const figure::Result& now);
    double m_height{}, m_capacity{}; // m, m3; as it lies level
    double m_unit{}; // m3, of the volumes that are stepped
    std::size_t m_volume_at{};
    std::vector<double> m_places; // of the stick, from the left tangent line
};

} // namespace brimful::tablet
