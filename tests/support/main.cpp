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

// Runs every suite of this program, or those whose class name is given first; a program without suites has failed.
int main(int argc, char** argv)
{
    Application app(argc, argv);
    QStringList arguments = QCoreApplication::arguments();
    QString only;
    if (arguments.size() > 1 && !arguments.at(1).startsWith(QLatin1Char('-'))) {
        only = arguments.takeAt(1);
    }
    int run = 0;
    int failed = 0;
    for (const auto& make : brimful::test::suites()) {
        const auto suite = make();
        const QString name = QString::fromLatin1(suite->metaObject()->className());
        if (!only.isEmpty() && name != only) {
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
