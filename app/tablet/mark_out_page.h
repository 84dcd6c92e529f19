// Where the lines go on this vessel's shell: a door, a first hole to look in by, its nozzles and its seam. A plan; nothing is recorded.
#pragma once

#include "app/tablet/figure_page.h"

namespace brimful::tablet {

class MarkOutPage : public FigurePage {
    Q_OBJECT

public:
    using FigurePage::FigurePage;

protected:
    void open() override;
    void compute() override;
    void act() override; // saves the papers

private:
    [[nodiscard]] canon::Json asked() const;
    [[nodiscard]] canon::Json features() const;
    void judgeClashes(const canon::Json& values, const std::vector<std::string>& warnings);
    void fillMarks(const canon::Json& values, std::string_view list, const QString& end, double at);
    void fillDoor(const canon::Json& values);
    void noteOrder(const canon::Json& values);
    [[nodiscard]] QString tape(double metres) const;
    QString m_saved; // what became of the papers, until the next step
};

} // namespace brimful::tablet
