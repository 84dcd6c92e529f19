// Bad input: a clear answer that says what and where; nothing half-written, nothing lost.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

using namespace brimful;
using report::Why;

class BadInputTest : public QObject {
    Q_OBJECT

private slots:
    void admission_data()
    {
        QTest::addColumn<QString>("request");
        QTest::addColumn<int>("why");
        QTest::addColumn<QString>("path");
        const auto row = [](const char* name, const char* request, Why why, const char* path) {
            QTest::newRow(name) << request << static_cast<int>(why) << path;
        };
        row("empty", R"({})", Why::BadNumber, "number");
        row("small letters", R"({"number": "nq 1"})", Why::BadNumber, "number");
        row("zero diameter",
            R"({"number": "A-1", "vessel": {"outside_diameter": "0 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})",
            Why::BadFact, "vessel.outside_diameter");
        row("wall thicker than radius",
            R"({"number": "A-1", "vessel": {"outside_diameter": "10 in", "wall": "6 in", "overall_length": "92 in", "heads": "flat"}})",
            Why::BadFact, "vessel.wall");
        row("shorter than its heads",
            R"({"number": "A-1", "vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "20 in", "heads": "hemispherical"}})",
            Why::BadFact, "vessel.overall_length");
        row("unknown unit",
            R"({"number": "A-1", "vessel": {"outside_diameter": "30 inchs", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})",
            Why::BadFact, "vessel.outside_diameter");
        row("unknown key", R"({"number": "A-1", "vesel": {}})", Why::UnknownFact, "vesel");
    }
    void admission()
    {
        QFETCH(const QString, request);
        QFETCH(const int, why);
        QFETCH(const QString, path);
        test::Crew crew;
        auto yard = crew.open();
        const auto before = yard.verify()->entries;
        const auto done = yard.admit(test::json(request.toUtf8().constData()), crew.tam);
        QVERIFY(!done);
        QCOMPARE(static_cast<int>(done.error().why), why);
        QCOMPARE(QString::fromStdString(done.error().path), path);
        QCOMPARE(yard.verify()->entries, before);
    }

    void records_data()
    {
        QTest::addColumn<QString>("step");
        QTest::addColumn<QString>("facts");
        QTest::addColumn<QString>("instrument");
        QTest::addColumn<int>("why");
        QTest::addColumn<QString>("path");
        const auto row = [](const char* name, const char* step, const char* facts, const char* instrument, Why why, const char* path) {
            QTest::newRow(name) << step << facts << instrument << static_cast<int>(why) << path;
        };
        row("unknown step", "brimm", "{}", "", Why::UnknownStep, "step");
        row("reading without instrument", "readings-wet", "{}", "", Why::InstrumentMissing, "instrument");
        row("unknown instrument", "readings-wet", "{}", "M-9", Why::UnknownInstrument, "instrument");
        row("unknown fact", "signs", R"({"colour": "green"})", "", Why::UnknownFact, "facts.colour");
        row("unknown choice", "signs", R"({"brass": "green", "smell": "nothing", "marks": "none"})", "", Why::UnknownChoice, "facts.brass");
        row("missing fact", "signs", R"({"brass": "plain"})", "", Why::MissingFact, "facts.smell");
        row("no unit", "place", R"({"outdoors": "outdoors", "distance": "20"})", "", Why::BadQuantity, "facts.distance");
        row("wrong dimension", "place", R"({"outdoors": "outdoors", "distance": "20 kg"})", "", Why::BadQuantity, "facts.distance");
    }
    void records()
    {
        QFETCH(const QString, step);
        QFETCH(const QString, facts);
        QFETCH(const QString, instrument);
        QFETCH(const int, why);
        QFETCH(const QString, path);
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(test::json(R"({"number": "A-1"})"), crew.tam));
        const auto before = yard.verify()->entries;
        const yard::Signing by = step == QStringLiteral("readings-wet") ? crew.ada : crew.tam;
        const auto done =
            yard.record({"A-1", step.toStdString(), test::json(facts.toUtf8().constData()), instrument.toStdString(), {}, {}}, by);
        QVERIFY(!done);
        QCOMPARE(static_cast<int>(done.error().why), why);
        QCOMPARE(QString::fromStdString(done.error().path), path);
        QCOMPARE(yard.verify()->entries, before);
    }

    // A catalytic meter at 6 % oxygen: taken, recorded, and worth nothing.
    void starvedMeterCountsForNothing()
    {
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(test::json(R"({"number": "A-1"})"), crew.tam));
        QVERIFY(yard.checkInstrument({"M-1", "49 %LEL", "50 %LEL", {}}, crew.ada));
        const char* facts = R"({"fresh-gas": "0 %LEL", "fresh-oxygen": "20.9 %", "set": [
            {"name": "vent", "gas": "0 %LEL", "oxygen": "6 %"}, {"name": "cut", "gas": "0 %LEL", "oxygen": "20.9 %"}, {"name": "ground", "gas": "0 %LEL", "oxygen": "20.9 %"},
            {"name": "low-left", "gas": "0 %LEL", "oxygen": "20.9 %"}, {"name": "low-right", "gas": "0 %LEL", "oxygen": "20.9 %"}]})";
        QVERIFY(yard.record({"A-1", "readings-wet", test::json(facts), "M-1", {}, {}}, crew.ada));
        const auto folded = yard.folded("A-1");
        const rules::Index step = yard.pack().step("readings-wet");
        QVERIFY(folded->evidence.steps[step].passed != rules::Truth::True);
    }

    void aPdfIsNoPhoto()
    {
        test::Crew crew;
        auto yard = crew.open();
        QVERIFY(yard.admit(test::json(R"({"number": "A-1"})"), crew.tam));
        const std::string file = (crew.folder.path() + QStringLiteral("/paper.pdf")).toStdString();
        std::ofstream(file) << "%PDF-1.4 not a picture";
        const auto done = yard.record(
            {"A-1", "signs", test::json(R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), {}, {}, {{"sign-photo", file}}},
            crew.tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::NotAPicture);
        QCOMPARE(done.error().path, std::string("facts.sign-photo"));
    }

    void secondTabletIsTold()
    {
        test::Crew crew;
        {
            auto made = crew.open();
        }
        auto first = crew.reopen(yard::Access::Tablet);
        auto second = yard::Yard::open(crew.yardFolder(), yard::Access::Tablet, crew.clock);
        QVERIFY(!second);
        QCOMPARE(second.error().why, Why::TabletRunning);
        QVERIFY(yard::Yard::open(crew.yardFolder(), yard::Access::ReadWrite, crew.clock)); // the command line may write beside it
    }

    void newerYardIsNotTouched()
    {
        test::Crew crew;
        {
            auto made = crew.open();
        }
        {
            SQLite::Database db((crew.yardFolder() / "ledger.db").string(), SQLite::OPEN_READWRITE);
            db.exec("PRAGMA user_version=3");
        }
        const auto opened = yard::Yard::open(crew.yardFolder(), yard::Access::ReadWrite, crew.clock);
        QVERIFY(!opened);
        QCOMPARE(opened.error().why, Why::NewerYard);
    }

    void otherMachineReadsButDoesNotSign()
    {
        test::Crew crew;
        {
            auto made = crew.open();
        }
        // A folder copied to another machine: its key is bound to that other one.
        const std::filesystem::path other = (crew.folder.path() + QStringLiteral("/other")).toStdString();
        QVERIFY(people::Device::create(other, people::randomId<DeviceId>(), "another machine", people::Sealing::Light));
        std::filesystem::copy_file(
            other / "device.key", crew.yardFolder() / "device" / "device.key", std::filesystem::copy_options::overwrite_existing);
        auto opened = yard::Yard::open(crew.yardFolder(), yard::Access::ReadWrite, crew.clock);
        QVERIFY(opened);
        QVERIFY(opened->verify()->intact());
        const auto done = opened->admit(test::json(R"({"number": "A-1"})"), crew.tam);
        QVERIFY(!done);
        QCOMPARE(done.error().why, Why::OtherMachine);
    }

    void noYardHere()
    {
        const QTemporaryDir folder;
        const auto clock = yard::systemClock();
        const auto opened = yard::Yard::open(folder.path().toStdString(), yard::Access::ReadOnly, *clock);
        QVERIFY(!opened);
        QCOMPARE(opened.error().why, Why::NoYard);
        const auto created = yard::Yard::create(folder.path().toStdString(), {"Y", "Ada", "123456", "tablet", false, {}}, *clock);
        QVERIFY(!created);
        QCOMPARE(created.error().why, Why::WeakPin);
        QVERIFY(!std::filesystem::exists(std::filesystem::path(folder.path().toStdString()) / "ledger.db"));
    }

    void scriptedClockOnlyWherePlayed()
    {
        const QTemporaryDir folder;
        yard::ScriptedClock scripted({test::kStart, 1, people::randomId<BootId>(), ledger::ClockState::Ok});
        const auto created = yard::Yard::create(folder.path().toStdString(), {"Y", "Ada", "480263", "tablet", false, {}}, scripted);
        QVERIFY(!created);
        QCOMPARE(created.error().why, Why::ScriptedClock);
    }
};

BRIMFUL_SUITE(BadInputTest);
#include "bad_input_test.moc"
