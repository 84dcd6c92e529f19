// A further tablet: asked for, enrolled, and both at work on the same vessels; entries carried both ways in any order.
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QTest>

#include <fstream>

using namespace brimful;
using report::Why;

namespace {

// The yard of the crew, and a second tablet of it in a folder and with a clock of its own.
struct TwoTablets {
    test::Crew crew;
    yard::Yard first{crew.open()};
    yard::ScriptedClock clock{{crew.clock.now().wall_ms, 600'000, people::randomId<BootId>(), ledger::ClockState::Ok}};
    yard::Signing ada{"Ada", "615204", {}}; // another PIN: each tablet has keys of its own
    yard::Signing tam{"Tam", "357046", {}};
    std::string code;

    [[nodiscard]] std::filesystem::path at(const char* name) const { return crew.folder.filePath(name).toStdString(); }
    // The record as it stands, in the second tablet's folder.
    yard::Yard restored()
    {
        if (!first.exportEntries(at("all"), {}) || !yard::Yard::restore(at("second"), at("all"))) {
            qFatal("nothing restored");
        }
        return open();
    }
    yard::Yard open() const
    {
        auto opened = yard::Yard::open(at("second"), yard::Access::ReadWrite, clock);
        if (!opened) {
            qFatal("the second tablet does not open");
        }
        return std::move(*opened);
    }
    // Asked, enrolled, told; its clock confirmed.
    yard::Yard enrolled()
    {
        auto second = restored();
        const auto asked = second.askDevice({"Tablet 2", {ada, tam}}, at("ask"));
        if (!asked || !first.addDevice(at("ask"), *asked, crew.ada)) {
            qFatal("not enrolled");
        }
        carry(first, second);
        if (!second.confirmClock(clock.now().wall_ms, ada)) {
            qFatal("the second tablet's clock is not confirmed");
        }
        return second;
    }
    void carry(const yard::Yard& from, yard::Yard& to) const
    {
        const auto done = from.exportEntries(at("carried"), {});
        const auto taken = done ? to.importEntries(at("carried")) : tl::unexpected(done.error());
        if (!taken) {
            qFatal("not carried: %s", std::string(report::whyWord(taken.error().why)).c_str());
        }
    }
    void wait(std::int64_t ms)
    {
        crew.clock.wait(ms);
        clock.wait(ms);
    }
};

void admit(yard::Yard& yard, const char* number, const yard::Signing& by)
{
    canon::Json request =
        test::json(R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})");
    request.set("number", number);
    QVERIFY(yard.admit(request, by));
}

yard::RecordRequest signs(const char* brass)
{
    canon::Json facts = test::json(R"({"smell": "nothing", "marks": "none"})");
    facts.set("brass", brass);
    return {"NQ-01", "signs", facts, {}, {}, {}};
}

std::vector<Hash> orderOf(yard::Yard& yard, const char* number)
{
    std::vector<Hash> order;
    const auto folded = yard.folded(number);
    for (const ledger::Line& line : folded->lines) {
        order.push_back(line.hash);
    }
    return order;
}

} // namespace

class DevicesTest : public QObject {
    Q_OBJECT

private slots:
    void askedAndEnrolled()
    {
        TwoTablets yards;
        auto second = yards.restored();
        // A restored record reads and verifies; nothing is written there.
        QVERIFY(second.verify()->intact());
        admit(yards.first, "NQ-01", yards.crew.tam);
        yards.carry(yards.first, second);
        QCOMPARE(second.event("NQ-01", "concern", {}).error().why, Why::NoKeyHere);
        QCOMPARE(second.askDevice({"", {yards.ada}}, yards.at("ask")).error().why, Why::NameEmpty);
        QCOMPARE(second.askDevice({"Tablet 2", {}}, yards.at("ask")).error().why, Why::NeedsPerson);
        QCOMPARE(second.askDevice({"Tablet 2", {{"Nobody", "615204", {}}}}, yards.at("ask")).error().why, Why::UnknownPerson);
        QCOMPARE(second.askDevice({"Tablet 2", {{"Ada", "123456", {}}}}, yards.at("ask")).error().why, Why::WeakPin);
        const auto code = second.askDevice({"Tablet 2", {yards.ada, yards.tam}}, yards.at("ask"));
        QVERIFY(code);
        // Its key is made, and still it writes nothing: nobody has enrolled it.
        QCOMPARE(second.event("NQ-01", "concern", {}).error().why, Why::DeviceNotEnrolled);
        // Only an authoriser, with the right code, and only once.
        QCOMPARE(yards.first.addDevice(yards.at("ask"), "0000-0000-0000-0000", yards.crew.ada).error().why, Why::BadAsk);
        QCOMPARE(yards.first.addDevice(yards.at("no such file"), *code, yards.crew.ada).error().why, Why::NoSuchFile);
        QCOMPARE(yards.first.addDevice(yards.at("all"), *code, yards.crew.ada).error().why, Why::BadAsk);
        QCOMPARE(yards.first.addDevice(yards.at("ask"), *code, yards.crew.tam).error().why, Why::RoleNotHeld);
        QVERIFY(yards.first.addDevice(yards.at("ask"), *code, yards.crew.ada));
        QCOMPARE(yards.first.addDevice(yards.at("ask"), *code, yards.crew.ada).error().why, Why::AskTaken);
        QCOMPARE(yards.first.devices().size(), std::size_t(2));
        QCOMPARE(second.event("NQ-01", "concern", {}).error().why, Why::DeviceNotEnrolled); // it has not heard of it yet
        yards.carry(yards.first, second);
        QVERIFY(second.event("NQ-01", "concern", {}));
        QCOMPARE(second.askDevice({"Tablet 3", {yards.ada}}, yards.at("ask")).error().why, Why::AskTaken);
        QVERIFY(std::ranges::any_of(second.devices(), [](const yard::DeviceShown& one) { return one.this_one && one.name == "Tablet 2"; }));
        // A PIN of the other tablet opens nothing here, its own does.
        QCOMPARE(second.confirmClock(yards.clock.now().wall_ms, yards.crew.ada).error().why, Why::WrongPin);
        QVERIFY(second.confirmClock(yards.clock.now().wall_ms, yards.ada));
        QVERIFY(second.verify()->intact());
    }

    // One byte of what is carried changed: it is not what was asked.
    void anAskThatWasChanged()
    {
        TwoTablets yards;
        auto second = yards.restored();
        const auto code = second.askDevice({"Tablet 2", {yards.ada}}, yards.at("ask"));
        QVERIFY(code);
        QFile file(QString::fromStdString(yards.at("ask").string()));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray right = file.readAll();
        file.close();
        for (qsizetype at = 0; at < right.size(); ++at) {
            QByteArray wrong = right;
            wrong[at] = static_cast<char>(wrong[at] ^ 1);
            std::ofstream(yards.at("ask"), std::ios::binary) << wrong.toStdString();
            const auto done = yards.first.addDevice(yards.at("ask"), *code, yards.crew.ada);
            QVERIFY2(!done && done.error().why == Why::BadAsk, qPrintable(QString("byte %1").arg(at)));
        }
        for (qsizetype size = 0; size < right.size(); size += 7) {
            std::ofstream(yards.at("ask"), std::ios::binary) << right.left(size).toStdString();
            QVERIFY(!yards.first.addDevice(yards.at("ask"), *code, yards.crew.ada));
        }
        QCOMPARE(yards.first.devices().size(), std::size_t(1));
    }

    // Each goes on where the other left off; after every exchange both say the same.
    void inTurns()
    {
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        auto second = yards.enrolled();
        yards.carry(second, yards.first);
        QVERIFY(yards.first.event("NQ-01", "concern", "smells"));
        yards.carry(yards.first, second);
        QCOMPARE(second.vessel("NQ-01")->word, report::PlateWord::Stopped);
        QVERIFY(second.clear("NQ-01", "concern", "an old rag", "taken away", yards.ada, yards.tam));
        QVERIFY(second.record(signs("plain"), yards.tam));
        yards.carry(second, yards.first);
        QCOMPARE(yards.first.vessel("NQ-01")->word, report::PlateWord::Held);
        QVERIFY(!yards.first.folded("NQ-01")->forked);
        const rules::Index step = yards.first.pack().step("signs");
        QCOMPARE(yards.first.folded("NQ-01")->evidence.steps[step].passed, rules::Truth::True);
        QVERIFY(orderOf(yards.first, "NQ-01") == orderOf(second, "NQ-01"));
        QVERIFY(yards.first.verify()->intact() && second.verify()->intact());
        // A vessel admitted there is worked on here.
        admit(second, "NQ-02", yards.tam);
        yards.carry(second, yards.first);
        QVERIFY(yards.first.event("NQ-02", "moved", {}));
        yards.carry(yards.first, second);
        QVERIFY(!second.folded("NQ-02")->forked);
    }

    // The same photograph for two vessels on two tablets that had not heard of each other: once they have, it proves neither,
    // until one record is withdrawn. A photograph whose file was taken away is not new either.
    void onePhotographOnTwoTablets()
    {
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        admit(yards.first, "NQ-02", yards.crew.tam);
        auto second = yards.enrolled();
        yards.carry(second, yards.first);
        const std::filesystem::path photo = yards.at("photo.jpg");
        std::ofstream(photo, std::ios::binary) << "\xff\xd8\xff the bytes of a photograph";
        yard::RecordRequest request = signs("plain");
        request.files["sign-photo"] = photo;
        const auto here = yards.first.record(request, yards.crew.tam);
        QVERIFY(here);
        request.vessel = "NQ-02";
        QVERIFY(second.record(request, yards.tam));
        const auto lack = [](yard::Yard& yard, const char* vessel) {
            return yard.folded(vessel)->evidence.steps[yard.pack().step("signs")].lack;
        };
        QCOMPARE(lack(yards.first, "NQ-01"), rules::Lack::None);
        yards.carry(second, yards.first);
        yards.carry(yards.first, second);
        for (yard::Yard* yard : {&yards.first, &second}) {
            QVERIFY(yard->verify()->intact());
            QCOMPARE(lack(*yard, "NQ-01"), rules::Lack::Conflict);
            QCOMPARE(lack(*yard, "NQ-02"), rules::Lack::Conflict);
        }
        QVERIFY(yards.first.correct(here->entry, "the photograph is of NQ-02", yards.crew.tam));
        QCOMPARE(lack(yards.first, "NQ-02"), rules::Lack::None);
        const std::string name = canon::toHex(canon::sha256("\xff\xd8\xff the bytes of a photograph"));
        QVERIFY(std::filesystem::remove(yards.first.folder() / "evidence" / name.substr(0, 2) / (name + ".jpg")));
        request.vessel = "NQ-01";
        QCOMPARE(yards.first.record(request, yards.crew.tam).error().why, Why::PictureUsed);
    }

    // Both wrote of one vessel while apart: held on both until an authoriser, on either, has looked at both.
    void apart_data()
    {
        QTest::addColumn<bool>("joined_there");
        QTest::newRow("joined on the first") << false;
        QTest::newRow("joined on the second") << true;
    }
    void apart()
    {
        QFETCH(bool, joined_there);
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        admit(yards.first, "NQ-02", yards.crew.tam);
        auto second = yards.enrolled();
        yards.carry(second, yards.first);
        yards.wait(60'000);
        QVERIFY(yards.first.record(signs("plain"), yards.crew.tam));
        QVERIFY(second.record(signs("bright-blue"), yards.tam));
        QVERIFY(second.event("NQ-02", "moved", {}));
        // Both ways, in either order, and a second time.
        QVERIFY(yards.first.exportEntries(yards.at("one"), {}) && second.exportEntries(yards.at("two"), {}));
        QVERIFY(yards.first.importEntries(yards.at("two")) && second.importEntries(yards.at("one")));
        QCOMPARE(yards.first.importEntries(yards.at("two"))->entries, std::uint64_t(0));
        for (yard::Yard* yard : {&yards.first, &second}) {
            QVERIFY(yard->verify()->intact());
            QVERIFY(yard->folded("NQ-01")->forked);
            QVERIFY(!yard->folded("NQ-01")->evidence.whole);
            QVERIFY(!yard->folded("NQ-02")->forked);
            const rules::Index step = yard->pack().step("signs");
            QCOMPARE(yard->folded("NQ-01")->evidence.steps[step].lack, rules::Lack::Conflict); // two newest records
        }
        QVERIFY(orderOf(yards.first, "NQ-01") == orderOf(second, "NQ-01"));
        yards.wait(60'000);
        QVERIFY(joined_there ? second.joinFork("NQ-01", "both looked at", yards.ada)
                             : yards.first.joinFork("NQ-01", "both looked at", yards.crew.ada));
        yards.carry(joined_there ? second : yards.first, joined_there ? yards.first : second);
        for (yard::Yard* yard : {&yards.first, &second}) {
            QVERIFY(!yard->folded("NQ-01")->forked);
            QVERIFY(yard->folded("NQ-01")->evidence.whole);
            QVERIFY(yard->verify()->intact());
            // What failed on one of them stands as a stop on both.
            QCOMPARE(yard->vessel("NQ-01")->word, report::PlateWord::Refused);
        }
        QVERIFY(orderOf(yards.first, "NQ-01") == orderOf(second, "NQ-01"));
    }

    // Everything of the yard's folder on another machine: it reads, it verifies, it signs nothing; enrolled anew it works.
    void aCopiedFolderOnAnotherMachine()
    {
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        std::filesystem::copy(yards.crew.yardFolder(), yards.at("second"), std::filesystem::copy_options::recursive);
        {
            // As another machine sees it: the device is bound to an id that this one does not have.
            std::filesystem::remove_all(yards.at("second") / "device");
            QVERIFY(people::Device::create(
                yards.at("second") / "device", people::randomId<DeviceId>(), "another machine", people::Sealing::Light));
        }
        auto copied = yards.open();
        QVERIFY(copied.verify()->intact());
        QVERIFY(copied.folded("NQ-01")->evidence.whole);
        QCOMPARE(copied.event("NQ-01", "concern", {}).error().why, Why::OtherMachine);
        QCOMPARE(copied.record(signs("plain"), yards.crew.tam).error().why, Why::OtherMachine);
        QCOMPARE(copied.printTag("NQ-01", "a6", 0, false).error().why, Why::OtherMachine);
        const auto code = copied.askDevice({"Tablet 2", {yards.ada, yards.tam}}, yards.at("ask"));
        QVERIFY(code);
        QVERIFY(yards.first.addDevice(yards.at("ask"), *code, yards.crew.ada));
        yards.carry(yards.first, copied);
        QVERIFY(copied.event("NQ-01", "concern", {}));
    }

    // What may be asked is the same on both tablets, whichever wrote it and in whatever order it came; nothing is measured between them.
    void theSameQuestionsOnBoth()
    {
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        admit(yards.first, "NQ-02", yards.crew.tam);
        auto second = yards.enrolled();
        const yard::RecordRequest fill{"NQ-01", "fill-one",
            test::json(R"({"hose": "loose-to-bottom", "backflow": "air-gap", "overflowed": "2 min", "let-out": "by-the-route",
                "probe-kept-off": "nothing-near"})"),
            {}, {}, {}};
        QVERIFY(yards.first.event("NQ-01", "fill-started", {}));
        yards.carry(yards.first, second);
        yards.wait(60'000);
        QVERIFY(second.record(fill, yards.tam)); // on another tablet
        yards.carry(second, yards.first);
        QVERIFY(yards.first.toAsk()->questions.empty());
        auto other = fill;
        other.vessel = "NQ-02";
        QVERIFY(second.event("NQ-02", "fill-started", {}));
        yards.wait(60'000);
        const auto signed_card = second.record(other, yards.tam);
        QVERIFY(signed_card);
        yards.carry(second, yards.first);
        for (yard::Yard* each : {&yards.first, &second}) {
            const auto asked = each->toAsk();
            QCOMPARE(asked->cards, std::size_t{2});
            QCOMPARE(asked->vessels, std::size_t{2});
            QCOMPARE(asked->questions.size(), std::size_t{1});
            const report::Question& question = asked->questions.front();
            QCOMPARE(question.what, report::Question::What::SoonerThanItTakes);
            QCOMPARE(question.vessels, std::vector<std::string>{"NQ-02"});
            QCOMPARE(question.persons, std::vector<std::string>{"Tam"});
            QCOMPARE(question.entries.back(), signed_card->entry);
            QCOMPARE(question.took_ms, std::int64_t{60'000});
            // Read bit by bit it is the same.
            yard::ReadToAsk so_far;
            auto bit = each->readToAsk(so_far, 3);
            std::size_t bits = 1;
            for (; bit && !*bit; bit = each->readToAsk(so_far, 3)) {
                QCOMPARE(so_far.entries.size(), 3 * bits++);
            }
            QVERIFY(bits > 3);
            QCOMPARE((*bit)->cards, std::size_t{2});
            QCOMPARE((*bit)->questions.size(), std::size_t{1});
            QCOMPARE((*bit)->questions.front().entries, question.entries);
        }
        QVERIFY(second.correct(signed_card->entry, "the wrong vessel", yards.tam));
        QVERIFY(second.toAsk()->questions.empty());
    }

    // Two people's signatures on one device within a minute: listed, every one; whether as a second signature too.
    void signedTogether()
    {
        TwoTablets yards;
        admit(yards.first, "NQ-01", yards.crew.tam);
        const auto before = yards.first.signedTogether()->size();
        yards.wait(61'000);
        QVERIFY(yards.first.record(signs("plain"), yards.crew.tam)); // alone
        QCOMPARE(yards.first.signedTogether()->size(), before);
        yards.wait(60'000);
        QVERIFY(yards.first.confirmClock(yards.crew.clock.now().wall_ms, yards.crew.ada)); // a minute later, exactly
        yards.wait(60'001);
        QVERIFY(yards.first.record(signs("plain"), yards.crew.tam)); // a millisecond more than a minute
        yards.wait(5'000);
        QVERIFY(yards.first.event("NQ-01", "concern", {})); // nobody's: it does not come between
        QVERIFY(yards.first.clear("NQ-01", "concern", "a rag", "gone", yards.crew.ada, yards.crew.tam));
        const auto pairs = *yards.first.signedTogether();
        QCOMPARE(pairs.size(), before + 3);
        QCOMPARE(pairs[before].apart_ms, std::int64_t(60'000));
        QCOMPARE(pairs[before].first, std::string("Tam"));
        QCOMPARE(pairs[before].second, std::string("Ada"));
        QCOMPARE(pairs[before].vessel, std::string());
        QCOMPARE(pairs[before + 1].apart_ms, std::int64_t(5'000));
        QVERIFY(!pairs[before + 1].confirms);
        QCOMPARE(pairs[before + 2].vessel, std::string("NQ-01"));
        QVERIFY(pairs[before + 2].confirms);
    }
};
BRIMFUL_SUITE(DevicesTest);

#include "devices_test.moc"
