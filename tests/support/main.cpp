#include "tests/support/suite.h"

#include <QTest>
#include <QTextStream>
#ifdef BRIMFUL_TEST_GUI
#include <QGuiApplication>
using Application = QGuiApplication;
#else
#include <QCoreApplication>
using Application = QCoreApplication;
#endif

// Runs every suite of this program, or the one whose class name is given first ("all-but:One,Two": those that are not named); a
// program that ran none has failed.
int main(int argc, char** argv)
{
    Application app(argc, argv);
    QStringList arguments = QCoreApplication::arguments();
    constexpr QLatin1String kAllBut("all-but:");
    QString only;
    if (arguments.size() > 1 && !arguments.at(1).startsWith(QLatin1Char('-'))) {
        only = arguments.takeAt(1);
    }
    int run = 0;
    int failed = 0;
    for (const auto& make : brimful::test::suites()) {
        const auto suite = make();
        const QString name = QString::fromLatin1(suite->metaObject()->className());
        const bool wanted =
            only.startsWith(kAllBut) ? !only.mid(kAllBut.size()).split(u',').contains(name) : only.isEmpty() || name == only;
        if (!wanted) {
            continue;
        }
        ++run;
        failed += QTest::qExec(suite.get(), arguments) == 0 ? 0 : 1;
    }
    if (run == 0) {
        QTextStream(stderr) << "no suite ran\n";
        return 2;
    }
    return failed == 0 ? 0 : 1;
}
