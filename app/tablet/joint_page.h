// How a piece meets this vessel's shell or head: the pattern that goes round it, the hole, the string that draws a circle. A plan.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class JointPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void act() override; // saves the papers

private:
    enum class Kind : std::uint8_t { PipeOnShell, PipeOnHead, HalfOnShell, HalfOnHead, HeadOnHead, HeadInSide };
    [[nodiscard]] Kind kind() const { return static_cast<Kind>(static_cast<int>(valueOf("kind"))); }
    [[nodiscard]] canon::Json asked() const;
    void fillLines(const canon::Json& values);
    [[nodiscard]] QString tape(double metres) const;
    QString m_saved; // what became of the papers, until the next step
};

} // namespace brimful::tablet
