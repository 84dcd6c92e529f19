// Full-size patterns from the command line: files, pages, and what is refused with which code.
#include "tests/journeys/program.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QTemporaryDir>
#include <QTest>

using namespace brimful::test;

namespace {

const QByteArray kJoint = R"({"kind": "pipe-to-cylinder", "pipe_diameter": "8 in", "cylinder_diameter": "30 in", "angle": "60 deg"})";
const QByteArray kShell =
    R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in", "overall_length": "92 in", "heads": "hemispherical"},
    "features": [{"name": "door", "kind": "door", "from_left_tangent": "20 in", "length": "30 in", "clock": "40 deg", "width": "20 in"}]})";

} // namespace

class TemplateJourney : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;
    [[nodiscard]] QString path(const char* name) const { return m_folder.filePath(QLatin1String(name)); }

private slots:
    void writesWhatIsAsked()
    {
        const Said said = call({"--json", "template", "junction", "-", "--pdf", path("j.pdf"), "--dxf", path("j.dxf"), "--svg",
                                   path("j.svg"), "--paper", "letter", "--part", "NUMBER 7"},
            kJoint);
        QVERIFY2(said.code == 0, said.err.constData());
        QCOMPARE(said.json().value("patterns").toArray(), (QJsonArray{"pipe", "hole"}));
        QVERIFY(said.json().value("pages").toInt() > 2);
        QFile pdf(path("j.pdf"));
        QVERIFY(pdf.open(QIODevice::ReadOnly));
        QVERIFY(pdf.read(5) == "%PDF-");
        QFile dxf(path("j.dxf"));
        QVERIFY(dxf.open(QIODevice::ReadOnly));
        QVERIFY(dxf.readAll().endsWith("0\nEOF\n"));
        QVERIFY(QFileInfo(path("j.svg")).size() > 1000);
    }

    void takesOnePatternOfSeveral()
    {
        const Said one =
            call({"--json", "template", "junction", "-", "--pdf", path("one.pdf"), "--paper", "roll", "--pattern", "hole"}, kJoint);
        QCOMPARE(one.code, 0);
        QCOMPARE(one.json().value("patterns").toArray(), (QJsonArray{"hole"}));
        QCOMPARE(one.json().value("pages").toInt(), 2);
        const Said door = call({"--json", "template", "mark-out", "-", "--dxf", path("door.dxf")}, kShell);
        QCOMPARE(door.code, 0);
        QCOMPARE(door.json().value("patterns").toArray(), (QJsonArray{"door"}));
    }

    void writesThePageOfMarks()
    {
        const Said said =
            call({"--json", "template", "mark-out", "-", "--sheet", path("marks.pdf"), "--paper", "letter", "--part", "NUMBER 7"}, kShell);
        QVERIFY2(said.code == 0, said.err.constData());
        QCOMPARE(said.json().value("sheet").toString(), path("marks.pdf"));
        QFile pdf(path("marks.pdf"));
        QVERIFY(pdf.open(QIODevice::ReadOnly));
        QVERIFY(pdf.read(5) == "%PDF-");
    }

    void refuses_data()
    {
        QTest::addColumn<QStringList>("arguments");
        QTest::addColumn<QByteArray>("input");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("path");
        const QStringList pdf{"--pdf", path("no.pdf")};
        QTest::newRow("a figure that is none") << QStringList{"saddle", "-"} + pdf << kJoint << 2 << "figure";
        QTest::newRow("paper that is none") << QStringList{"junction", "-", "--paper", "a5"} + pdf << kJoint << 2 << "--paper";
        QTest::newRow("a roll of no width") << QStringList{"junction", "-", "--paper", "roll", "--roll-width", "24"} + pdf << kJoint << 2
                                            << "--roll-width";
        QTest::newRow("nowhere to write") << QStringList{"junction", "-"} << kJoint << 2 << "--pdf";
        QTest::newRow("a pattern that is none") << QStringList{"junction", "-", "--pattern", "lid"} + pdf << kJoint << 2 << "--pattern";
        QTest::newRow("a figure without patterns")
            << QStringList{"capacity", "-"} + pdf << QByteArray(R"({"vessel": {"outside_diameter": "30 in", "wall": "0.25 in",
            "overall_length": "92 in", "heads": "hemispherical"}})")
            << 2 << "figure";
        QTest::newRow("a round head") << QStringList{"junction", "-"} + pdf
                                      << QByteArray(R"({"kind": "sphere-to-sphere", "left_diameter": "30 in", "right_diameter": "30 in",
            "distance": "24 in"})") << 2
                                      << "figure";
        QTest::newRow("a pipe wider than the shell") << QStringList{"junction", "-"} + pdf
                                                     << QByteArray(R"({"kind": "pipe-to-cylinder", "pipe_diameter": "31 in",
            "cylinder_diameter": "30 in"})") << 2 << "pipe_diameter";
        QTest::newRow("a sheet of marks of a joint") << QStringList{"junction", "-", "--sheet", path("no.pdf")} << kJoint << 2 << "figure";
        QTest::newRow("a sheet of marks on a roll")
            << QStringList{"mark-out", "-", "--paper", "roll", "--sheet", path("no.pdf")} << kShell << 2 << "--paper";
        QTest::newRow("a sheet of marks in no folder")
            << QStringList{"mark-out", "-", "--sheet", "/nowhere/at/all.pdf"} << kShell << 4 << "/nowhere/at/all.pdf";
        QTest::newRow("a folder that is not there")
            << QStringList{"junction", "-", "--dxf", "/nowhere/at/all.dxf"} << kJoint << 4 << "/nowhere/at/all.dxf";
    }
    void refuses()
    {
        QFETCH(QStringList, arguments);
        QFETCH(QByteArray, input);
        QFETCH(int, code);
        QFETCH(QString, path);
        const Said said = call(QStringList{"--json", "template"} + arguments, input);
        QVERIFY2(said.code == code, said.err.constData());
        QCOMPARE(said.error().value("path").toString(), path);
        QVERIFY(!QFileInfo::exists(m_folder.filePath("no.pdf")));
    }
};
BRIMFUL_SUITE(TemplateJourney);
#include "template_test.moc"
