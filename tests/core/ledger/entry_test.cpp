// An entry's bytes: one form, nothing unknown, and the words that FORMAT.md lists.
#include "core/ledger/body.h"
#include "core/ledger/own_answer.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QFile>
#include <QRegularExpression>
#include <QTest>

#include <random>
#include <rapidcheck.h>

using namespace brimful;
using canon::Json;
using ledger::EntryFault;
using ledger::Kind;

namespace {

// The verifier's own reading agrees with the reader's, but for who must sign, which it asks elsewhere.
bool bothAgree(const std::string& body)
{
    const auto entry = ledger::decode(body);
    const bool form = entry || entry.error().fault == EntryFault::UnsignedKind;
    const auto own = ledger::readBody(body);
    if (own.has_value() != form) {
        return false;
    }
    if (!entry) {
        return true;
    }
    const auto hex = [](const auto& id) { return id ? canon::toHex(*id) : std::string(); };
    std::vector<std::string_view> words{own->boot_id, own->device, own->yard, own->prev, own->vessel, own->kind};
    const std::vector<std::string> wanted{canon::toHex(entry->at.boot), canon::toHex(entry->device), canon::toHex(entry->yard),
        hex(entry->prev), hex(entry->vessel), std::string(ledger::kindWord(entry->kind))};
    return std::ranges::equal(words, wanted) && own->boot == entry->at.boot_ms && own->wall == entry->at.wall_ms
        && own->seq == static_cast<std::int64_t>(entry->seq) && own->payload == canon::canonical(entry->payload)
        && own->person == (entry->signer ? canon::toHex(entry->signer->person) : "") && own->parents.size() == entry->parents.size()
        && std::ranges::equal(own->attachments, entry->attachments, {}, {}, [](const Hash& hash) { return canon::toHex(hash); });
}

// JSON as it is easier to read here.
std::string quoted(std::string json)
{
    std::ranges::replace(json, '\'', '"');
    return json;
}

const char* wordOf(EntryFault fault)
{
    switch (fault) {
    case EntryFault::Json:
        return "json";
    case EntryFault::UnknownKey:
        return "unknown key";
    case EntryFault::MissingKey:
        return "missing key";
    case EntryFault::WrongType:
        return "wrong type";
    case EntryFault::UnknownWord:
        return "unknown word";
    case EntryFault::BadId:
        return "bad id";
    case EntryFault::Range:
        return "range";
    case EntryFault::NotSorted:
        return "not sorted";
    case EntryFault::TooLarge:
        return "too large";
    case EntryFault::NotCanonical:
        return "not canonical";
    case EntryFault::UnsignedKind:
        return "unsigned kind";
    }
    return "";
}

QString section(const QString& heading)
{
    QFile file(QStringLiteral(BRIMFUL_SOURCE_DIR "/core/ledger/FORMAT.md"));
    const QString text = file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
    return text.section("\n## " + heading, 1).section("\n## ", 0, 0);
}

// The first column of a table: the words in backticks, and whether a star follows.
std::map<QString, bool> firstColumn(const QString& text)
{
    std::map<QString, bool> out;
    for (const QString& line : text.split('\n')) {
        if (!line.startsWith("| `")) {
            continue;
        }
        const QString cell = line.section('|', 1, 1);
        static const QRegularExpression kWord("`([^`]+)`");
        auto found = kWord.globalMatch(cell);
        while (found.hasNext()) {
            out[found.next().captured(1)] = cell.contains('*');
        }
    }
    return out;
}

template <class Id> Id idOf(std::mt19937_64& random)
{
    Id id;
    for (auto& byte : id.value) {
        byte = static_cast<std::uint8_t>(random());
    }
    return id;
}

ledger::Entry randomEntry(std::uint64_t seed)
{
    std::mt19937_64 random(seed);
    const auto some = [&] { return random() % 2 == 0; };
    ledger::Entry entry;
    entry.yard = idOf<YardId>(random);
    entry.device = idOf<DeviceId>(random);
    entry.seq = 1 + random() % 9'007'199'254'740'991ULL;
    entry.kind = static_cast<Kind>(random() % 22);
    entry.prev = some() ? std::optional(idOf<Hash>(random)) : std::nullopt;
    entry.vessel = some() ? std::optional(idOf<VesselId>(random)) : std::nullopt;
    for (auto count = random() % 3; count > 0; --count) {
        entry.parents.push_back(idOf<Hash>(random));
        entry.attachments.push_back(idOf<Hash>(random));
    }
    std::ranges::sort(entry.parents);
    std::ranges::sort(entry.attachments);
    entry.payload.set("note", "é \"\\ €").set("list", Json::array({Json(static_cast<std::int64_t>(random() % 1000)), Json("x")}));
    if (some() || !ledger::mayBeUnsigned(entry.kind)) {
        entry.signer = ledger::Signer{idOf<PersonId>(random), "gas-tester"};
    }
    entry.at = {static_cast<std::int64_t>(random() % 4'000'000'000'000), static_cast<std::int64_t>(random() % 1'000'000'000),
        idOf<BootId>(random), static_cast<ledger::ClockState>(random() % 3)};
    entry.pack = some() ? idOf<Hash>(random) : Hash{};
    entry.tag = some() ? std::optional(static_cast<std::int64_t>(random() % 10'000)) : std::nullopt;
    return entry;
}

} // namespace

class EntryTest : public QObject {
    Q_OBJECT

private slots:
    void kindsAreThoseOfThePage()
    {
        const auto page = firstColumn(section("Kinds and payloads"));
        QCOMPARE(page.size(), std::size_t(22));
        for (int i = 0; i < 22; ++i) {
            const auto kind = static_cast<Kind>(i);
            const QString word = QString::fromStdString(std::string(ledger::kindWord(kind)));
            QVERIFY2(page.contains(word), qPrintable(word));
            QCOMPARE(ledger::mayBeUnsigned(kind), page.at(word));
            QCOMPARE(ledger::kindByWord(word.toStdString()), std::optional(kind));
        }
        QVERIFY(!ledger::kindByWord("").has_value());
        QVERIFY(!ledger::kindByWord("Evidence").has_value());
    }

    void keysAreThoseOfThePage()
    {
        std::map<QString, bool> written;
        for (std::uint64_t seed = 0; seed < 50; ++seed) {
            const auto body = canon::read(ledger::encode(randomEntry(seed)), canon::Dialect::Subset);
            for (const auto& member : body->members) {
                written[QString::fromStdString(member.key)] = false;
            }
        }
        const auto page = firstColumn(section("Body"));
        for (const auto& [key, star] : page) {
            QVERIFY2(written.contains(key), qPrintable(key));
        }
        QCOMPARE(written.size(), page.size());
    }

    void readsWhatItWrites()
    {
        QVERIFY(rc::check("an entry comes back as it was", [](std::uint64_t seed) {
            const ledger::Entry entry = randomEntry(seed);
            const std::string body = ledger::encode(entry);
            const auto again = ledger::decode(body);
            RC_ASSERT(again.has_value());
            RC_ASSERT(again->yard == entry.yard && again->device == entry.device && again->seq == entry.seq);
            RC_ASSERT(again->prev == entry.prev && again->vessel == entry.vessel && again->parents == entry.parents);
            RC_ASSERT(again->kind == entry.kind && again->payload == entry.payload && again->signer == entry.signer);
            RC_ASSERT(again->at == entry.at && again->pack == entry.pack && again->attachments == entry.attachments);
            RC_ASSERT(again->tag == entry.tag);
            RC_ASSERT(ledger::encode(*again) == body);
            RC_ASSERT(bothAgree(body));
        }));
    }

    void refusals_data()
    {
        QTest::addColumn<QByteArray>("from");
        QTest::addColumn<QByteArray>("to");
        QTest::addColumn<QByteArray>("fault");
        const auto row = [](const char* name, const char* from, const char* to, const char* fault) {
            QTest::newRow(name) << QByteArray(from) << QByteArray(to) << QByteArray(fault);
        };
        row("not JSON", "{\"attach", "{\"attach\n", "json");
        row("null", "\"note\":\"n\"", "\"note\":null", "json");
        row("a space", "\"v\":1", "\"v\": 1", "not canonical");
        row("an escape that is not needed", "\"note\":\"n\"", "\"note\":\"\\u006e\"", "not canonical");
        row("keys out of order", "\"seq\":3,\"tag\":7", "\"tag\":7,\"seq\":3", "not canonical");
        row("unknown key", "\"v\":1", "\"v\":1,\"very\":1", "unknown key");
        row("an older version", "\"v\":1", "\"v\":0", "range");
        row("a newer version", "\"v\":1", "\"v\":2", "range");
        row("seq nought", "\"seq\":3", "\"seq\":0", "range");
        row("seq below", "\"seq\":3", "\"seq\":-3", "range");
        row("seq as text", "\"seq\":3", "\"seq\":\"3\"", "wrong type");
        row("no seq", "\"seq\":3,", "", "missing key");
        row("no clock", "\"clock\":\"ok\",", "", "missing key");
        row("a new clock word", "\"clock\":\"ok\"", "\"clock\":\"fine\"", "unknown word");
        row("a new kind", "\"kind\":\"evidence\"", "\"kind\":\"evidences\"", "unknown word");
        row("capital in an id", "\"yard\":\"1", "\"yard\":\"A", "bad id");
        row("short id", "\"yard\":\"11", "\"yard\":\"1", "bad id");
        row("payload a list", "\"payload\":{\"note\":\"n\"}", "\"payload\":[]", "wrong type");
        row("person without role", "\"role\":\"gas-tester\",", "", "missing key");
        row("role without person", "\"person\":\"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\",", "", "missing key");
        row("empty parents", "\"parents\":[\"5555555555555555555555555555555555555555555555555555555555555555\"]", "\"parents\":[]",
            "not sorted");
        row("a parent twice", "\"parents\":[", "\"parents\":[\"5555555555555555555555555555555555555555555555555555555555555555\",",
            "not sorted");
        row("parents out of order", "\"parents\":[", "\"parents\":[\"6666666666666666666666666666666666666666666666666666666666666666\",",
            "not sorted");
        row("a parent that is no hash", "\"parents\":[", "\"parents\":[7,", "bad id");
        row("an unsigned record", "\"person\":\"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\",\"prev\"", "\"prev\"", "missing key");
    }
    void refusals()
    {
        QFETCH(QByteArray, from);
        QFETCH(QByteArray, to);
        QFETCH(QByteArray, fault);
        ledger::Entry entry;
        entry.yard = *canon::fromHex<YardId>(std::string(32, '1'));
        entry.device = *canon::fromHex<DeviceId>(std::string(32, '2'));
        entry.seq = 3;
        entry.prev = Hash{};
        entry.kind = Kind::Evidence;
        entry.payload.set("note", "n");
        entry.signer = ledger::Signer{*canon::fromHex<PersonId>(std::string(32, 'a')), "gas-tester"};
        entry.attachments = {Hash{}};
        entry.parents = {*canon::fromHex<Hash>(std::string(64, '5'))};
        entry.tag = 7;
        const QByteArray right = QByteArray::fromStdString(ledger::encode(entry));
        QVERIFY(ledger::decode(right.toStdString()).has_value());
        QCOMPARE(right.count(from), 1);
        QByteArray wrong = right;
        wrong.replace(from, to);
        const auto read = ledger::decode(wrong.toStdString());
        QVERIFY(!read.has_value());
        QCOMPARE(QByteArray(wordOf(read.error().fault)), fault);
        QVERIFY(!ledger::readBody(wrong.toStdString()).has_value());
    }

    // The second person's own answer: what FORMAT.md lets it be, and nothing else. Entries without it read as before.
    void ownAnswerHasItsForm_data()
    {
        QTest::addColumn<QByteArray>("answer");
        QTest::addColumn<QByteArray>("fault");
        QTest::addColumn<QByteArray>("path");
        QTest::addColumn<QByteArray>("expected");
        const auto row = [](const char* name, const char* answer, const char* fault = "", const char* path = "",
                             const char* expected = "") {
            QTest::newRow(name) << QByteArray(answer) << QByteArray(fault) << QByteArray(path) << QByteArray(expected);
        };
        row("a choice", R"({"fact":"substance","value":"propane"})");
        row("a count", R"({"fact":"stuck","value":0})");
        row("a quantity", R"({"fact":"gauge","value":{"count":0,"typed":"0 psi","unit":"Pa"}})");
        row("of a register",
            R"({"column":"bore","fact":"register","row":"N3","value":{"count":317500,"typed":"1 1/4 in","unit":"100nm"}})");
        row("no object", R"("propane")", "wrong type", "payload.answer", "object");
        row("no fact", R"({"value":"propane"})", "missing key", "payload.answer.fact", "text");
        row("no value", R"({"fact":"substance"})", "missing key", "payload.answer.value", "text, integer or quantity");
        row("one key more", R"({"fact":"substance","said":"aloud","value":"propane"})", "unknown key", "payload.answer.said",
            "fact, value; row, column");
        row("fact is no text", R"({"fact":7,"value":"propane"})", "wrong type", "payload.answer.fact", "text");
        row("an empty value", R"({"fact":"substance","value":""})", "wrong type", "payload.answer.value", "text, integer or quantity");
        row("a list", R"({"fact":"substance","value":["propane"]})", "wrong type", "payload.answer.value", "text, integer or quantity");
        row("half a quantity", R"({"fact":"gauge","value":{"count":0,"unit":"Pa"}})", "wrong type", "payload.answer.value",
            "text, integer or quantity");
        row("a row without its column", R"({"fact":"register","row":"N3","value":1})", "missing key", "payload.answer.column",
            "row and column together");
        row("a column without its row", R"({"column":"bore","fact":"register","value":1})", "missing key", "payload.answer.row",
            "row and column together");
    }
    void ownAnswerHasItsForm()
    {
        QFETCH(const QByteArray, answer);
        QFETCH(const QByteArray, fault);
        QFETCH(const QByteArray, path);
        QFETCH(const QByteArray, expected);
        ledger::Entry entry = randomEntry(8);
        entry.kind = Kind::Confirmed;
        entry.signer = ledger::Signer{*canon::fromHex<PersonId>(std::string(32, 'a')), "hand"};
        entry.payload = Json::object();
        entry.payload.set("confirms", std::string(64, '5'));
        QVERIFY(ledger::decode(ledger::encode(entry)).has_value());
        QVERIFY(!ledger::ownAnswer(entry.payload)->has_value());
        entry.payload.set("answer", *canon::read(answer.toStdString(), canon::Dialect::Subset));
        const std::string body = ledger::encode(entry);
        const auto read = ledger::decode(body);
        QCOMPARE(read.has_value(), fault.isEmpty());
        if (read) {
            const auto kept = ledger::ownAnswer(read->payload);
            QVERIFY(kept && *kept);
            QCOMPARE(QByteArray::fromStdString(canon::canonical(ledger::toJson(**kept))), answer);
            return;
        }
        QCOMPARE(QByteArray(wordOf(read.error().fault)), fault);
        QCOMPARE(QByteArray::fromStdString(read.error().path), path);
        QCOMPARE(QByteArray::fromStdString(read.error().expected), expected);
    }

    // What stands wrong in `photos` makes the entry none, for the reader and for the verifier; the reader says what, where and what
    // was expected.
    void photographsAreReadStrictly_data()
    {
        QTest::addColumn<QByteArray>("photos");
        QTest::addColumn<QByteArray>("fault");
        QTest::addColumn<QByteArray>("where");
        QTest::addColumn<QByteArray>("expected");
        const QByteArray six(64, '6');
        const QByteArray at = "payload.photos." + six;
        const auto row = [&](const char* name, const QByteArray& photos, const char* fault, const QByteArray& where, const char* expected) {
            QTest::newRow(name) << photos << QByteArray(fault) << where << QByteArray(expected);
        };
        const auto of = [&](const char* note) { return "{'" + six + "':" + note + "}"; };
        row("right", of("{'found':[],'how':'camera'}"), "", "", "");
        row("all",
            of("{'alike':'7777777777777777777777777777777777777777777777777777777777777777','chalk':'0000','found':['blurred','dark','"
               "other-tag','tag'],'how':'file','look':'0123456789abcdef'}"),
            "", "", "");
        row("in a row of a register", "{'" + QByteArray(64, '7') + "':{'how':'file'}}", "", "", "");
        row("a list", "[]", "wrong type", "payload.photos", "{\"<sha256>\":{}}");
        row("empty", "{}", "wrong type", "payload.photos", "{\"<sha256>\":{}}");
        row("a file that no fact names", "{'" + QByteArray(64, '8') + "':{'how':'file'}}", "bad id",
            "payload.photos." + QByteArray(64, '8'), "a file that a fact names");
        row("a file that is not kept", "{'" + QByteArray(64, '9') + "':{'how':'file'}}", "bad id", "payload.photos." + QByteArray(64, '9'),
            "a file that a fact names");
        row("no hash", "{'sign-photo':{'how':'file'}}", "bad id", "payload.photos.sign-photo", "a file that a fact names");
        row("a word alone", of("'file'"), "wrong type", at, "{}");
        row("how it came is not said", of("{'found':[]}"), "missing key", at + ".how", "camera, file");
        row("another way", of("{'how':'post'}"), "unknown word", at + ".how", "camera, file");
        row("a way as a number", of("{'how':1}"), "unknown word", at + ".how", "camera, file");
        row("another word", of("{'found':['bright'],'how':'file'}"), "unknown word", at + ".found", "blurred, dark, other-tag, tag");
        row("a word as a number", of("{'found':[1],'how':'file'}"), "unknown word", at + ".found", "blurred, dark, other-tag, tag");
        row("words out of order", of("{'found':['tag','dark'],'how':'file'}"), "not sorted", at + ".found",
            "blurred, dark, other-tag, tag");
        row("a word twice", of("{'found':['dark','dark'],'how':'file'}"), "not sorted", at + ".found", "blurred, dark, other-tag, tag");
        row("words as a text", of("{'found':'dark','how':'file'}"), "wrong type", at + ".found", "[]");
        row("three digits", of("{'chalk':'482','how':'file'}"), "range", at + ".chalk", "4 digits");
        row("a letter", of("{'chalk':'48l2','how':'file'}"), "range", at + ".chalk", "4 digits");
        row("chalk as a number", of("{'chalk':4821,'how':'file'}"), "range", at + ".chalk", "4 digits");
        row("a short look", of("{'how':'file','look':'0123456789abcde'}"), "bad id", at + ".look", "16 hex digits");
        row("a look in capitals", of("{'how':'file','look':'0123456789ABCDEF'}"), "bad id", at + ".look", "16 hex digits");
        row("alike to no file", of("{'alike':'NQ-02','how':'file'}"), "bad id", at + ".alike", "a SHA-256, hex");
        row("one member more", of("{'how':'file','place':'51.5 N'}"), "unknown key", at + ".place", "alike, chalk, found, how, look");
    }
    void photographsAreReadStrictly()
    {
        QFETCH(const QByteArray, photos);
        QFETCH(const QByteArray, fault);
        QFETCH(const QByteArray, where);
        QFETCH(const QByteArray, expected);
        ledger::Entry entry = randomEntry(2);
        entry.kind = Kind::Evidence;
        entry.signer = ledger::Signer{PersonId{}, "gas-tester"};
        entry.attachments.clear();
        for (const char digit : {'6', '7', '8'}) {
            entry.attachments.push_back(*canon::fromHex<Hash>(std::string(64, digit)));
        }
        const auto digits = [](char digit) { return std::string(64, digit); };
        const auto payload = [&](const std::string& told) {
            return quoted("{'facts':{'" + digits('8') + "':'a key, no file','missing':'" + digits('9') + "','photo':'" + digits('6')
                + "','ports':[{'name':'N1','photo':'" + digits('7') + "'}]},'note':'\\'photos\\':'," + told + "'step':'look'}");
        };
        entry.payload = *canon::read(payload(""), canon::Dialect::Subset);
        QVERIFY(ledger::decode(ledger::encode(entry)).has_value());
        QVERIFY(bothAgree(ledger::encode(entry)));
        entry.payload = *canon::read(payload("'photos':" + photos.toStdString() + ","), canon::Dialect::Subset);
        const std::string body = ledger::encode(entry);
        const auto read = ledger::decode(body);
        QCOMPARE(read.has_value(), fault.isEmpty());
        QVERIFY(bothAgree(body));
        if (!read) {
            QCOMPARE(QByteArray(wordOf(read.error().fault)), fault);
            QCOMPARE(QByteArray::fromStdString(read.error().path), where);
            QCOMPARE(QByteArray::fromStdString(read.error().expected), expected);
        }
        entry.kind = Kind::Event; // of another kind it means nothing
        QVERIFY(ledger::decode(ledger::encode(entry)).has_value());
        QVERIFY(bothAgree(ledger::encode(entry)));
    }

    // One changed byte anywhere in what is told of photographs: the two readings never differ.
    void everyChangedByteOfAPhotograph()
    {
        QFile file(QStringLiteral(BRIMFUL_SOURCE_DIR "/tests/core/ledger/golden/10-evidence-photos.json"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const std::string right = file.readAll().toStdString();
        std::mt19937 random(7);
        int taken = 0;
        for (std::size_t at = right.find("\"payload\""); at < right.size(); ++at) {
            for (int i = 0; i < 16; ++i) {
                std::string wrong = right;
                wrong[at] = i < 8 ? right[random() % right.size()] : static_cast<char>(random());
                QVERIFY2(bothAgree(wrong), wrong.c_str());
                taken += ledger::decode(wrong) ? 1 : 0;
            }
        }
        QVERIFY(taken > 0);
    }

    void unsignedOnlyWhatTakesAway()
    {
        for (int i = 0; i < 22; ++i) {
            ledger::Entry entry = randomEntry(5);
            entry.kind = static_cast<Kind>(i);
            entry.signer.reset();
            const auto read = ledger::decode(ledger::encode(entry));
            QCOMPARE(read.has_value(), ledger::mayBeUnsigned(entry.kind));
            if (!read) {
                QCOMPARE(QByteArray(wordOf(read.error().fault)), QByteArray("unsigned kind"));
            }
        }
        QVERIFY(!ledger::mayBeUnsigned(Kind::Evidence) && !ledger::mayBeUnsigned(Kind::Released) && !ledger::mayBeUnsigned(Kind::Cleared));
    }

    void sixtyFourKibibytesAndNoMore()
    {
        ledger::Entry entry = randomEntry(1);
        entry.payload.set("note", "");
        const std::size_t empty = ledger::encode(entry).size();
        entry.payload.set("note", std::string(ledger::kLargestBody - empty, 'x'));
        QCOMPARE(ledger::encode(entry).size(), ledger::kLargestBody);
        QVERIFY(ledger::decode(ledger::encode(entry)).has_value());
        entry.payload.set("note", std::string(ledger::kLargestBody - empty + 1, 'x'));
        QCOMPARE(QByteArray(wordOf(ledger::decode(ledger::encode(entry)).error().fault)), QByteArray("too large"));
    }

    // Members taken out, doubled, exchanged, retyped: the two readings never differ.
    void damagedBodies()
    {
        std::mt19937_64 random(31);
        int taken = 0;
        for (int i = 0; i < 20'000; ++i) {
            const auto body = canon::read(ledger::encode(randomEntry(random())), canon::Dialect::Subset);
            Json changed = *body;
            for (auto count = random() % 3; count > 0; --count) {
                auto& members = changed.members;
                const auto at = static_cast<std::ptrdiff_t>(random() % members.size());
                auto& value = members[static_cast<std::size_t>(at)].value;
                switch (random() % 6) {
                case 0:
                    members.erase(members.begin() + at);
                    break;
                case 1:
                    value = Json(static_cast<std::int64_t>(random() % 5) - 2);
                    break;
                case 2:
                    value = Json::array({value, value});
                    break;
                case 3:
                    value = members[random() % members.size()].value;
                    break;
                case 4:
                    value.text += "a";
                    break;
                default:
                    changed.set("zz", 1);
                    break;
                }
            }
            const std::string bytes = canon::canonical(changed);
            QVERIFY2(bothAgree(bytes), bytes.c_str());
            taken += ledger::decode(bytes) ? 1 : 0;
        }
        QVERIFY(taken > 5'000 && taken < 15'000);
    }

    // One changed byte anywhere in a body: refused, or an entry whose bytes are exactly those.
    void everyChangedByte()
    {
        const std::string right = ledger::encode(randomEntry(3));
        std::mt19937 random(3);
        for (std::size_t at = 0; at < right.size(); ++at) {
            for (int i = 0; i < 8; ++i) {
                std::string wrong = right;
                wrong[at] = static_cast<char>(random());
                const auto read = ledger::decode(wrong);
                QVERIFY(!read || ledger::encode(*read) == wrong);
                QVERIFY2(bothAgree(wrong), wrong.c_str());
            }
        }
    }
};
BRIMFUL_SUITE(EntryTest);

#include "entry_test.moc"
