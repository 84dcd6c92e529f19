// What a stack draws, where its path is narrowest, what a liner leaves, how much longer the vessel gets when it is hot. A plan.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class DraughtPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    [[nodiscard]] bool us() const { return subject().reading.units == text::Units::Us; }
    [[nodiscard]] canon::Json asked() const;
    void judgeFlow(const canon::Json& values);
    void fillLines(const canon::Json& values);
    [[nodiscard]] QString tape(double metres) const;
    [[nodiscard]] QString flow(double kilograms_a_second) const;
};

} // namespace brimful::tablet
