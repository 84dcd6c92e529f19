// Cuts into a vessel that holds water: where each meets it, what runs out, what opens, what comes free. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class CutPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void flipped(const QString& key) override; // what is cut: a door, along, round

private:
    [[nodiscard]] canon::Json cuts() const;
    [[nodiscard]] canon::Json asked() const;
    void judgeIt(const figure::Result& result);
    void tell(const figure::Result& result);
    void tellPanel(double level_after);
    QString m_kind;
};

} // namespace brimful::tablet
