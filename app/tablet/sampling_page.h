// Where and in which order to hold the probe, and how long to wait at each place. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class SamplingPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    [[nodiscard]] canon::Json asked() const;
    void judgeIt(const canon::Json& values);
    void showPlace(const figure::Result& result);
    [[nodiscard]] QString nameOf(const canon::Json& place) const;
};

} // namespace brimful::tablet
