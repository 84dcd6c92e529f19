// The audit: the same words on paper and in a terminal, every reason, every page marked.
#include "app/print/pages.h"
#include "tests/app/print/sample_audit.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

using namespace brimful;

namespace {

QByteArray run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    return process.waitForFinished(60'000) ? process.readAllStandardOutput() : QByteArray();
}

QString textOf(const QString& pdf) { return QString::fromUtf8(run("pdftotext", {"-raw", pdf, "-"})); }

// Words only: how a line is broken on paper says nothing.
QString words(QString text) { return text.simplified().remove(QLatin1Char(' ')); }

int pagesOf(const QString& pdf)
{
    for (const QByteArray& line : run("pdfinfo", {pdf}).split('\n')) {
        if (line.startsWith("Pages:")) {
            return line.mid(6).trimmed().toInt();
        }
    }
    return 0;
}

} // namespace

class AuditTest : public QObject {
    Q_OBJECT
    QTemporaryDir m_folder;

    QString written(const report::Audit& audit, const char* name)
    {
        const QString pdf = QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/") + QLatin1String(name);
        const auto done = print::writeAuditPdf(pdf.toStdString(), audit, test::basePack(), test::eastCoast());
        return done ? pdf : QString();
    }

private slots:
    void initTestCase() { print::loadFonts(); }

    void saysWhatItSaid_data()
    {
        QTest::addColumn<bool>("released");
        QTest::addColumn<QString>("file");
        QTest::newRow("held") << false << "audit-held.txt";
        QTest::newRow("released, played") << true << "audit-released.txt";
    }
    void saysWhatItSaid()
    {
        QFETCH(bool, released);
        QFETCH(QString, file);
        const QString text = print::auditText(released ? test::releasedAudit() : test::heldAudit(), test::namedPack(), test::eastCoast());
        QFile golden(QStringLiteral(BRIMFUL_SOURCE_DIR "/tests/app/print/golden/") + file);
        QVERIFY(golden.open(QIODevice::ReadOnly));
        // The rules' own hash changes with every rule; it is checked apart.
        QString masked = text;
        const QString hash = QString::fromStdString(canon::toHex(test::basePack().hash));
        QVERIFY(masked.contains(hash));
        masked.replace(hash, "HASH OF THE RULES");
        if (masked != QString::fromUtf8(golden.readAll())) {
            QFile now(QStringLiteral(BRIMFUL_BINARY_DIR "/pictures/") + file);
            QVERIFY(now.open(QIODevice::WriteOnly));
            now.write(masked.toUtf8());
            QFAIL(qPrintable("differs from the golden text; what it says now: " + now.fileName()));
        }
    }

    // At a glance: a photograph that came as a file and shows no tag stands first, and is marked as what counts.
    void photographsAreTold()
    {
        report::Audit audit = test::heldAudit();
        QVERIFY(!print::auditText(audit, test::basePack(), test::eastCoast()).contains(QLatin1String("Photographs")));
        ledger::PhotoNote taken;
        taken.by_camera = true;
        taken.found = ledger::PhotoFound{false, false, false, true};
        ledger::PhotoNote brought;
        brought.found = ledger::PhotoFound{true, false, false, false};
        brought.chalk = "4821";
        report::TrailLine line;
        line.kind = ledger::Kind::Evidence;
        line.step = "signs";
        line.person = "Tam";
        line.photos = {{canon::sha256("taken"), taken}};
        audit.trail.push_back(line);
        line.person = "Bea";
        line.counts = false;
        line.photos = {{canon::sha256("brought"), brought}};
        audit.trail.push_back(line);
        report::EvidenceShown shown = audit.requirements.front().evidence.front();
        shown.step = "signs";
        shown.fact = "sign-photo";
        shown.value = canon::toHex(canon::sha256("brought"));
        shown.photo = brought;
        shown.of_vessel = true;
        audit.requirements.front().evidence.push_back(shown);

        const QString text = print::auditText(audit, test::basePack(), test::eastCoast());
        const qsizetype heading = text.indexOf(QLatin1String("\nPhotographs\n"));
        QVERIFY(heading > 0);
        const QString words = QStringLiteral("From a file, blurred, no tag in the picture, chalk number 4821 was asked for.");
        QVERIFY(text.left(heading).contains(words)); // beside the fact that it proves
        const QString told = text.mid(heading);
        QVERIFY2(told.contains(
                     QLatin1String("Of 2 the record tells how they came: 1 from a file; 1 from a file and without this vessel's tag.")),
            qPrintable(told.left(600)));
        const qsizetype weak = told.indexOf(QStringLiteral("* ") + words);
        const qsizetype strong = told.indexOf(QLatin1String("\nTaken with the tablet, the tag is in the picture."));
        QVERIFY2(weak > 0 && strong > weak, qPrintable(told.left(600)));
        QVERIFY(told.contains(QStringLiteral("Bea, file ") + QString::fromStdString(canon::toHex(canon::sha256("brought")).substr(0, 12))
            + " (does not count)"));
        const QString pdf = written(audit, "audit-photographs.pdf");
        QVERIFY(!pdf.isEmpty());
        QVERIFY(::words(textOf(pdf)).contains(::words(words)));
    }

    void paperSaysTheSame_data()
    {
        QTest::addColumn<bool>("released");
        QTest::newRow("held") << false;
        QTest::newRow("released") << true;
    }
    void paperSaysTheSame()
    {
        QFETCH(bool, released);
        const report::Audit audit = released ? test::releasedAudit() : test::heldAudit();
        const QString pdf = written(audit, released ? "audit-released.pdf" : "audit-held.pdf");
        QVERIFY(!pdf.isEmpty());
        const QString paper = words(textOf(pdf));
        for (QString line : print::auditText(audit, test::basePack(), test::eastCoast()).split('\n')) {
            line = line.startsWith("* ") ? line.mid(2) : line;
            if (line.trimmed().isEmpty() || QString(line).remove('-').isEmpty()) {
                continue;
            }
            QVERIFY2(paper.contains(words(line)), qPrintable(line));
        }
    }

    void everyReasonIsOnPaper()
    {
        const report::Audit audit = test::heldAudit();
        const QString paper = words(textOf(written(audit, "audit-held.pdf")));
        const rules::Pack& pack = test::basePack();
        QVERIFY(!audit.blockers.empty());
        for (const report::BlockerShown& blocker : audit.blockers) {
            QVERIFY(paper.contains(words(QString::fromStdString(pack.strings.at("rule." + blocker.rule)))));
            QVERIFY(paper.contains(words(QString::fromStdString(pack.strings.at("rule." + blocker.rule + ".lift")))));
            QVERIFY(paper.contains(words(QString::fromStdString(pack.strings.at("barrier." + blocker.barrier)))));
        }
    }

    void everyPageIsMarked()
    {
        report::Audit audit = test::releasedAudit();
        for (int i = 0; i < 120; ++i) {
            audit.trail.push_back(audit.trail.back());
        }
        const QString pdf = written(audit, "audit-long.pdf");
        const int pages = pagesOf(pdf);
        QVERIFY(pages >= 3);
        const QString head = words(QString::fromStdString(canon::toHex(audit.view.head)));
        for (int page = 1; page <= pages; ++page) {
            const QString number = QString::number(page);
            const QString text = QString::fromUtf8(run("pdftotext", {"-raw", "-f", number, "-l", number, pdf, "-"}));
            QVERIFY2(text.contains(QStringLiteral("page %1 of %2").arg(page).arg(pages)), qPrintable(text.left(200)));
            QVERIFY(text.contains("DEMO"));
            QVERIFY(words(text).contains(head));
        }
    }

    void aDamagedRecordIsNeverReleased()
    {
        report::Audit audit = test::releasedAudit();
        audit.verified.findings.push_back({canon::sha256("changed"), 17, ledger::Flaw::HashDiffers, std::nullopt});
        const QString text = print::auditText(audit, test::basePack(), test::eastCoast());
        QVERIFY(!text.contains("RELEASED"));
        QVERIFY(text.contains("HELD: the record is damaged"));
        QVERIFY(text.contains("Row 17: The entry was changed: its hash differs."));
    }

    void aQuestionAboutAnotherTimeSaysSo()
    {
        report::Audit audit = test::heldAudit();
        audit.clock = "as-if";
        QVERIFY(print::auditText(audit, test::basePack(), test::eastCoast()).contains("this is not a look at the vessel now"));
    }

    void fontsAreInTheFile()
    {
        const QByteArray fonts = run("pdffonts", {written(test::heldAudit(), "audit-held.pdf")});
        QVERIFY2(fonts.contains("B612"), fonts.constData());
        for (const QByteArray& line : fonts.split('\n').mid(2)) {
            QVERIFY2(line.isEmpty() || line.contains("B612"), line.constData());
        }
    }
};
BRIMFUL_SUITE(AuditTest);
#include "audit_test.moc"
