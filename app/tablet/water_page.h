// What if it stood otherwise: the vessel tilted and rolled, what stays trapped, how heavy it gets. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class WaterPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void flipped(const QString& key) override; // an opening: open, plugged
    void act() override; // sets it to the best pose

private:
    [[nodiscard]] canon::Json asked(bool with_snorkel) const;
    void askOfSnorkel();
    [[nodiscard]] const report::OpeningView* snorkelled() const; // the open opening that has one; null: none
    [[nodiscard]] canon::Json snorkel() const;
    void tellOfSnorkel();
    [[nodiscard]] std::vector<Row> openingRows() const;
    std::vector<report::OpeningView> m_as_if;
    QString m_best; // said once, when it was set
};

} // namespace brimful::tablet
