// The commands of FORMAT.md, taken from the page itself, run with sqlite3, sha256sum, openssl and cat alone.
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QStandardPaths>
#include <QTest>

using namespace brimful;

namespace {

QString page()
{
    QFile file(QStringLiteral(BRIMFUL_SOURCE_DIR "/core/ledger/FORMAT.md"));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

// The shell blocks below the heading.
QStringList recipes()
{
    QStringList out;
    static const QRegularExpression kBlock("```sh\n(.*?)```", QRegularExpression::DotMatchesEverythingOption);
    auto found = kBlock.globalMatch(page().section("## Checking one entry by hand", 1));
    while (found.hasNext()) {
        out.append(found.next().captured(1));
    }
    return out;
}

struct Said {
    int code{};
    QString out;
    [[nodiscard]] bool signatureHolds() const { return code == 0 && out.contains("Signature Verified Successfully"); }
    // Both numbers that the page asks to compare.
    [[nodiscard]] QStringList hashes() const
    {
        QStringList found;
        static const QRegularExpression kHash("^[0-9a-f]{64}", QRegularExpression::MultilineOption);
        auto all = kHash.globalMatch(out);
        while (all.hasNext()) {
            found.append(all.next().captured());
        }
        return found;
    }
};

class Desk {
public:
    Desk()
    {
        QVERIFY(QDir(m_root.path()).mkdir("bin"));
        for (const char* tool : {"sqlite3", "sha256sum", "openssl", "cat"}) {
            const QString found = QStandardPaths::findExecutable(tool);
            QVERIFY2(!found.isEmpty(), tool);
            QVERIFY(QFile::link(found, m_root.filePath(QString("bin/") + tool)));
        }
    }
    void bring(const QString& ledger)
    {
        for (const QString suffix : {"", "-wal"}) {
            QFile::remove(m_root.filePath("ledger.db" + suffix));
            if (QFile::exists(ledger + suffix)) {
                QVERIFY(QFile::copy(ledger + suffix, m_root.filePath("ledger.db" + suffix)));
            }
        }
    }
    Said follow(const QString& recipe, int row)
    {
        QProcess shell;
        shell.setWorkingDirectory(m_root.path());
        QProcessEnvironment environment;
        environment.insert("PATH", m_root.filePath("bin"));
        shell.setProcessEnvironment(environment);
        shell.setProcessChannelMode(QProcess::MergedChannels);
        shell.start("/bin/sh", {"-e", "-c", QString(recipe).replace("ROW", QString::number(row))});
        shell.waitForFinished();
        return {shell.exitCode(), QString::fromUtf8(shell.readAll())};
    }
    [[nodiscard]] std::filesystem::path file() const { return m_root.filePath("ledger.db").toStdString(); }

private:
    QTemporaryDir m_root;
};

} // namespace

class ByHandTest : public QObject {
    Q_OBJECT

private slots:
    void initTestCase() { QCOMPARE(recipes().size(), 2); }

    void goldenRowsHold()
    {
        Desk desk;
        desk.bring(BRIMFUL_SOURCE_DIR "/tests/core/ledger/golden/ledger.db");
        for (int row = 1; row <= 9; ++row) {
            const Said body = desk.follow(recipes()[0], row);
            QCOMPARE(body.hashes().size(), 2);
            QCOMPARE(body.hashes()[0], body.hashes()[1]);
            QVERIFY2(body.signatureHolds(), qPrintable(body.out));
            if (row != 9) { // nobody signed the last
                const Said person = desk.follow(recipes()[1], row);
                QVERIFY2(person.signatureHolds(), qPrintable(person.out));
            }
        }
    }

    // What this program writes, still standing in the log.
    void rowsOfThisProgramHold()
    {
        test::History history;
        const auto vessel = history.admit("NQ-01");
        history.event(vessel, "moved");
        history.add(ledger::Kind::Evidence, test::payload({{"step", "look"}}), &history.ben, "gas-tester", vessel);
        test::Shelf shelf;
        history.write(shelf.file());
        Desk desk;
        desk.bring(QString::fromStdString(shelf.file().string()));
        const int last = int(history.rows.size());
        const Said body = desk.follow(recipes()[0], last);
        QCOMPARE(body.hashes().size(), 2);
        QCOMPARE(body.hashes()[0], QString::fromStdString(canon::toHex(history.rows.back().hash)));
        QCOMPARE(body.hashes()[0], body.hashes()[1]);
        QVERIFY2(body.signatureHolds(), qPrintable(body.out));
        QVERIFY2(desk.follow(recipes()[1], last).signatureHolds(), "person");
    }

    void changedRowsShow()
    {
        Desk desk;
        desk.bring(BRIMFUL_SOURCE_DIR "/tests/core/ledger/golden/ledger.db");
        test::meddle(desk.file(),
            {"UPDATE entry SET body = replace(body, 'north door', 'south door') WHERE row = 9",
                "UPDATE entry SET device_sig = (SELECT device_sig FROM entry WHERE row = 3) WHERE row = 4",
                "UPDATE entry SET person_sig = (SELECT person_sig FROM entry WHERE row = 3) WHERE row = 5"});
        const Said body = desk.follow(recipes()[0], 9);
        QCOMPARE(body.hashes().size(), 2);
        QVERIFY(body.hashes()[0] != body.hashes()[1]);
        QVERIFY(!desk.follow(recipes()[0], 4).signatureHolds());
        QVERIFY(desk.follow(recipes()[0], 5).signatureHolds());
        QVERIFY(!desk.follow(recipes()[1], 5).signatureHolds());
    }
};
BRIMFUL_SUITE(ByHandTest);

#include "by_hand_test.moc"
