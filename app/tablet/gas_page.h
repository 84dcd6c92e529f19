// What if air were blown in: through what burns and when, with nitrogen before it or without. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class GasPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void flipped(const QString& key) override;

private:
    [[nodiscard]] std::string blown() const; // with its unit
    [[nodiscard]] canon::Json asked() const;
    void setMinutes(double span_s);
    void judgeWay(const canon::Json& values);
    void tell(const canon::Json& values, const std::vector<std::string>& warnings);
    void fillLines(const canon::Json& values);

    bool m_nitrogen_first{};
};

} // namespace brimful::tablet
