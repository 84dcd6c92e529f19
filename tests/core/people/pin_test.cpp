// Which PINs are taken: nothing that a colleague guesses first.
#include "core/people/device.h"
#include "tests/support/suite.h"

#include <QTest>

using namespace brimful;

class PinTest : public QObject {
    Q_OBJECT

private slots:
    void strength_data()
    {
        QTest::addColumn<bool>("strong");
        for (const char* pin : {"482913", "907164", "1029384756", "90817263", "735914", "4829130577"}) {
            QTest::newRow(pin) << true;
        }
        const std::vector<std::pair<const char*, const char*>> weak{{"", "nothing"}, {"48291", "five digits"}, {"123456", "run"},
            {"987654", "run down"}, {"456789", "run"}, {"567890", "run over nought"}, {"012345", "run"},
            {"3210987", "run down over nought"}, {"111111", "one digit"}, {"00000000", "one digit"}, {"121212", "two-digit pattern"},
            {"4747474", "two-digit pattern"}, {"140685", "ddmmyy"}, {"061485", "mmddyy"}, {"850614", "yymmdd"}, {"14061985", "ddmmyyyy"},
            {"06141985", "mmddyyyy"}, {"19850614", "yyyymmdd"}, {"311299", "ddmmyy"}, {"48291a", "a letter"}, {"482 913", "a space"},
            {"-482913", "a sign"}, {"٤٨٢٩١٣", "digits of another script"}, {"48291304829130483", "seventeen digits"}};
        for (const auto& [pin, why] : weak) {
            QTest::newRow(pin) << false;
        }
    }
    void strength()
    {
        QFETCH(bool, strong);
        QCOMPARE(people::isStrongPin(QTest::currentDataTag()), strong);
    }

    // How much the rules leave: of a million six-digit PINs most must remain, or they would be easier to guess than before.
    void mostRemain()
    {
        int strong = 0;
        for (int number = 0; number < 1'000'000; ++number) {
            strong += people::isStrongPin(QString::number(number).rightJustified(6, u'0').toStdString()) ? 1 : 0;
        }
        // Days of ddmmyy, mmddyy and yymmdd: at most 3 * 31 * 12 * 100 = 111,600.
        QVERIFY2(strong > 1'000'000 - 111'600 - 400 && strong < 1'000'000 - 37'200, qPrintable(QString::number(strong)));
    }
};
BRIMFUL_SUITE(PinTest);

#include "pin_test.moc"
