// What it weighs on its supports while it fills, whether it tips or slides, what the plugs hold. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class StandPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    [[nodiscard]] canon::Json asked(double share) const; // of the capacity
    void judgeIt(const figure::Result& result);
    void tell(const figure::Result& result);
    void draw(figure::Result result);
};

} // namespace brimful::tablet
