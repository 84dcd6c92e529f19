// What if a meter showed this: what it means of the gas that was in it, and why it can't be believed. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class MeterPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void flipped(const QString& key) override; // a meter of the yard's register

private:
    void addGases();
    void addLimits();
    void takeMeter(std::size_t index); // sets the inputs to what the register says of it
    [[nodiscard]] std::vector<double> set() const; // what is said of the meter itself
    [[nodiscard]] std::vector<Row> meterRows() const;
    [[nodiscard]] canon::Json asked() const;
    void judgeIt(const figure::Result& result);
    void tell(const figure::Result& result);
    void fillLines(const canon::Json& values);
    void draw(const canon::Json& values);

    std::vector<std::string> m_gases; // ids that a meter may be calibrated on; "" not said
    std::size_t m_meter{}; // of the register's
    std::vector<double> m_as_registered;
};

} // namespace brimful::tablet
