// How long it runs out through a hole, and what stays in. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class DrainPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    [[nodiscard]] canon::Json asked() const;
    void tell(const figure::Result& result);
    void draw(const figure::Result& result);
    [[nodiscard]] double depthAt(const figure::Result& result, double seconds) const;
};

} // namespace brimful::tablet
