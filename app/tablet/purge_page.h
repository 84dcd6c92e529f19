// What if nitrogen were put in: how much by which way, and whether what is left may meet air. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class PurgePage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;

private:
    enum class Way : std::uint8_t { Sweep, Siphon, Pressure, Vacuum };
    [[nodiscard]] Way way() const { return static_cast<Way>(valueOf("way")); }
    void askOfWay();
    [[nodiscard]] canon::Json asked() const;
    [[nodiscard]] QString gasVolume(double cubic_metres) const;
    [[nodiscard]] bool heavy() const;
    void judgeIt(const canon::Json& values);
    void tell(const figure::Result& result);
    void fillLines(const canon::Json& values);
};

} // namespace brimful::tablet
