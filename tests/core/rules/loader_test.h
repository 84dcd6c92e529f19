// How broken packs are refused. (Apart from the rows: the generator of Qt's glue cannot read raw strings with single braces.)
#pragma once

#include <QObject>

class LoaderTest : public QObject {
    Q_OBJECT
private slots:
    void theGoodOnesLoad();
    void theWholePackIsThere();
    void slips_data();
    void slips();
    void saysTheLineAndColumn();
    void saysAllErrorsAtOnce();
    void missingFiles();
    void tooDeepTooManyTooLong();
    void conditionsAreFlat();
    void talkAndTagAreMadeByTheLoader();
    void manifestLeavesOutCasesAndStrings();
    void loadsInTime();
};
