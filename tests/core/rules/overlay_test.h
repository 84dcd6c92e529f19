// How overlays tighten and what they may not. (Apart from the rows: the generator of Qt's glue cannot read raw strings with single braces.)
#pragma once

#include <QObject>

class OverlayTest : public QObject {
    Q_OBJECT
private slots:
    void movesTheDeclaredWay();
    void neverTheOtherWay();
    void theTightestOfSeveralRules();
    void shortensLives();
    void addsRulesWithTheirStrings();
    void nothingElse_data();
    void nothingElse();
};
