// What the record says of a photograph beside its hash. Pictures are words here: whoever decodes them is played.
#include "core/ledger/photos.h"
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

#include <fstream>

using namespace brimful;

namespace {

constexpr std::int64_t kMinute = 60'000;

struct Place {
    test::Crew crew;
    yard::Yard yard{crew.open()};
    report::Photograph next; // what the next picture shows
    int made{};

    Place()
    {
        for (const char* number : {"NQ-01", "NQ-02"}) {
            canon::Json request = test::json(
                R"({"vessel": {"outside_diameter": "30 in", "wall": "1/4 in", "overall_length": "92 in", "heads": "hemispherical"}})");
            request.set("number", number);
            if (!yard.admit(request, crew.tam)) {
                qFatal("not admitted");
            }
        }
        look();
    }
    void look()
    {
        yard.setPictures([this](const std::string& bytes) {
            report::Photograph seen = next;
            seen.bytes = bytes;
            return std::optional(seen);
        });
    }
    [[nodiscard]] std::filesystem::path photo()
    {
        const std::filesystem::path file = crew.folder.filePath(QStringLiteral("%1.jpg").arg(++made)).toStdString();
        std::ofstream(file, std::ios::binary) << "\xff\xd8\xff photograph " << made;
        return file;
    }
    yard::RecordRequest signs(const char* vessel)
    {
        yard::RecordRequest request{
            vessel, "signs", test::json(R"({"brass": "plain", "smell": "nothing", "marks": "none"})"), {}, {}, {}, {}};
        request.files["sign-photo"] = photo();
        return request;
    }
    yard::RecordRequest identity(const char* vessel)
    {
        yard::RecordRequest request{vessel, "identity",
            test::json(R"({"plate": "readable", "serial": "PX-204471", "serial-again": "4471", "number": "painted"})"), {}, {}, {}, {}};
        request.files["plate-photo"] = photo();
        return request;
    }
    // What the entry tells of its one photograph.
    std::optional<ledger::PhotoNote> recorded(const yard::RecordRequest& request)
    {
        const auto done = yard.record(request, crew.tam);
        if (!done) {
            qWarning("%s %s", std::string(report::whyWord(done.error().why)).c_str(), done.error().path.c_str());
            return std::nullopt;
        }
        newest = done->entry;
        const auto entry = ledger::decode(yard.stored(done->entry)->body);
        const auto notes = entry ? ledger::photosOf(entry->payload, entry->attachments) : tl::make_unexpected(ledger::EntryError{});
        return notes && notes->size() == 1 ? std::optional(notes->begin()->second) : std::nullopt;
    }
    Hash newest;
};

ledger::Look lookOf(std::uint8_t last)
{
    ledger::Look look;
    look.value = {0x0f, 0x1e, 0x2d, 0x3c, 0x4b, 0x5a, 0x69, last};
    return look;
}

} // namespace

class YardPhotographsTest : public QObject {
    Q_OBJECT

private slots:
    void howItCame()
    {
        Place place;
        yard::RecordRequest request = place.signs("NQ-01");
        auto note = place.recorded(request);
        QVERIFY(note && !note->by_camera && note->chalk.empty());
        request = place.signs("NQ-01");
        request.taken["sign-photo"] = {true, "0482"};
        note = place.recorded(request);
        QVERIFY(note && note->by_camera);
        QCOMPARE(note->chalk, std::string("0482"));
        const auto trail = place.yard.trail("NQ-01");
        QCOMPARE(trail->back().photos.size(), std::size_t(1));
        QCOMPARE(trail->back().photos.begin()->second, *note);
        QVERIFY(place.yard.verify()->intact());
    }

    // A yard without eyes says so by silence; one that looked and found nothing says that.
    void whoLooked()
    {
        Place place;
        place.yard.setPictures({});
        QVERIFY(!place.recorded(place.signs("NQ-01"))->found);
        place.look();
        QVERIFY(place.recorded(place.signs("NQ-01"))->found == ledger::PhotoFound{});
    }

    void whatWasFound_data()
    {
        QTest::addColumn<QByteArray>("symbol");
        QTest::addColumn<bool>("dark");
        QTest::addColumn<bool>("blurred");
        QTest::addColumn<bool>("tag");
        QTest::addColumn<bool>("other");
        QTest::newRow("its newest tag") << QByteArray("newest") << false << false << true << false;
        QTest::newRow("its tag before") << QByteArray("older") << false << false << true << false;
        QTest::newRow("another vessel's") << QByteArray("other") << false << false << false << true;
        QTest::newRow("no tag of anybody") << QByteArray("HTTPS://EXAMPLE.ORG") << false << false << false << false;
        QTest::newRow("none") << QByteArray() << false << true << false << false;
        QTest::newRow("dark") << QByteArray() << true << false << false << false;
        QTest::newRow("its tag in the dark") << QByteArray("newest") << true << false << true << false;
    }
    void whatWasFound()
    {
        QFETCH(const QByteArray, symbol);
        QFETCH(const bool, dark);
        QFETCH(const bool, blurred);
        QFETCH(const bool, tag);
        QFETCH(const bool, other);
        Place place;
        const std::string older = place.yard.printTag("NQ-01", "100x150", 0, false)->text;
        const std::string newest = place.yard.printTag("NQ-01", "100x150", 0, false)->text;
        const std::string others = place.yard.printTag("NQ-02", "100x150", 0, false)->text;
        const std::map<QByteArray, std::string> symbols{{"newest", newest}, {"older", older}, {"other", others}};
        const auto known = symbols.find(symbol);
        if (!symbol.isEmpty()) {
            place.next.symbol = known == symbols.end() ? symbol.toStdString() : known->second;
        }
        place.next.dark = dark;
        place.next.blurred = blurred;
        const auto note = place.recorded(place.signs("NQ-01"));
        QVERIFY(note && note->found);
        QVERIFY((*note->found == ledger::PhotoFound{blurred, dark, other, tag}));
    }

    // Hashes that differ in 8 bits are alike, in 9 no more.
    void alikeInAnotherVessel()
    {
        Place place;
        place.next.look = lookOf(0x00);
        const yard::RecordRequest first = place.signs("NQ-01");
        const auto note = place.recorded(first);
        QVERIFY(note && note->look == lookOf(0x00) && !note->alike);
        const Hash file = canon::sha256("\xff\xd8\xff photograph 1");

        place.next.look = lookOf(0xff);
        const yard::RecordRequest second = place.signs("NQ-02");
        const auto told = place.yard.mayKeep(second.files.at("sign-photo"), true, "NQ-02", "signs");
        QVERIFY(told && *told);
        QCOMPARE((*told)->vessel, std::string("NQ-01"));
        QCOMPARE((*told)->step, std::string("signs"));
        QCOMPARE((*told)->file, file);
        QVERIFY(!*place.yard.mayKeep(second.files.at("sign-photo"), false, "NQ-02", "signs")); // a paper is no picture
        const auto alike = place.recorded(second); // taken all the same
        QVERIFY(alike && alike->alike == file);

        ledger::Look ninth = lookOf(0xff);
        ninth.value[0] = 0x0e;
        place.next.look = ninth;
        QVERIFY(place.yard.correct(place.newest, "of NQ-01", place.crew.tam)); // else it would be near to that
        const auto apart = place.recorded(place.signs("NQ-02"));
        QVERIFY(apart && !apart->alike);
        QVERIFY(place.yard.verify()->intact());
    }

    // The same part again within the half hour is the same round; another step, or later, is not.
    void alikeInTheSameVessel()
    {
        Place place;
        place.next.look = lookOf(0x11);
        QVERIFY(!place.recorded(place.signs("NQ-01"))->alike);
        place.crew.clock.wait(30 * kMinute);
        QVERIFY(!place.recorded(place.signs("NQ-01"))->alike);
        QVERIFY(place.recorded(place.identity("NQ-01"))->alike);
        place.crew.clock.wait(31 * kMinute);
        const auto later = place.recorded(place.signs("NQ-01"));
        QVERIFY(later && later->alike);
    }

    // It is all in the record: known after another start, forgotten with the record that was withdrawn.
    void knownFromTheRecord()
    {
        Place place;
        place.next.look = lookOf(0x22);
        QVERIFY(!place.recorded(place.signs("NQ-01"))->alike);
        const Hash first = place.newest;
        place.yard = place.crew.reopen();
        place.look();
        const auto photo = place.photo();
        QVERIFY(*place.yard.mayKeep(photo, true, "NQ-02", "signs"));
        QVERIFY(place.yard.correct(first, "wrong vessel", place.crew.tam));
        QVERIFY(!*place.yard.mayKeep(photo, true, "NQ-02", "signs"));
    }

    // Nothing is granted or held by it.
    void noRuleAsks()
    {
        Place place;
        const auto standing = [&] { return place.yard.folded("NQ-01")->evidence.steps[place.yard.pack().step("signs")]; };
        place.next.dark = true;
        place.next.blurred = true;
        place.next.symbol = place.yard.printTag("NQ-02", "100x150", 0, false)->text;
        const auto note = place.recorded(place.signs("NQ-01"));
        QVERIFY(note && note->found && note->found->other_tag);
        QCOMPARE(standing().lack, rules::Lack::None);
        QCOMPARE(standing().passed, rules::Truth::True);
    }
};
BRIMFUL_SUITE(YardPhotographsTest);

#include "photographs_test.moc"
