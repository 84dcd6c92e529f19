// What a sheet asks comes from the pack: nothing left out, nothing asked that is derived, limits with their side.
#include "app/tablet/ask.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>

using namespace brimful;
using tablet::Ask;
using tablet::Hand;

class AskTest : public QObject {
    Q_OBJECT

private slots:
    void initTestCase();
    void asksEveryRecordedFactOnce_data();
    void asksEveryRecordedFactOnce();
    void gasInNitrogenIsNotCalledOxygen();
    void theGoodAnswerLiesAnywhere();
    void aReadingRoundShowsOxygenFirst();
    void needsSayTheirSide();
    void outsideIsOutsideTheSameLimit();

private:
    std::optional<rules::Pack> m_pack;
};

void AskTest::initTestCase()
{
    for (const rules::PackSource& source : rules::shippedPacks()) {
        if (source.id == "base") {
            auto loaded = rules::load(source, {});
            QVERIFY(loaded.has_value());
            m_pack.emplace(std::move(*loaded));
        }
    }
    QVERIFY(m_pack.has_value());
}

void AskTest::asksEveryRecordedFactOnce_data()
{
    QTest::addColumn<QString>("step");
    for (const char* step : {"identity", "what-it-was", "measure", "zero-pressure", "brim", "pose", "ready-to-cut", "fire-watch",
             "inert-purge", "readings-wet", "readings-dry", "vent-log", "gas-log", "sweep"}) {
        QTest::newRow(step) << QString::fromLatin1(step);
    }
}

void AskTest::asksEveryRecordedFactOnce()
{
    QFETCH(QString, step);
    const rules::Index index = m_pack->step(step.toStdString());
    QVERIFY(index != rules::kNone);
    const std::vector<Ask> asks = tablet::asksOf(*m_pack, index, nullptr, {}, {});
    for (const rules::Index one : m_pack->steps[index].facts) {
        const rules::Fact& fact = m_pack->facts[one];
        const auto times = std::ranges::count_if(asks, [&](const Ask& ask) { return ask.into == fact.key && ask.member.empty(); });
        const bool recorded = fact.kind != rules::FactKind::Derived && fact.kind != rules::FactKind::Tag && fact.compares == rules::kNone
            && fact.reg == rules::kNone;
        QCOMPARE(times, recorded ? 1 : 0);
    }
    for (const Ask& ask : asks) {
        QVERIFY(!ask.ask.isEmpty());
        QVERIFY2(ask.member.empty() || m_pack->strings.contains("place." + ask.member), ask.member.c_str());
        QVERIFY(ask.hand != Hand::Choice || !ask.options.empty() || ask.fields.front().fact == rules::kNone
            || m_pack->facts[ask.fields.front().fact].kind == rules::FactKind::Person);
    }
}

// In nitrogen both are shares of the volume: neither is taken for the other.
void AskTest::gasInNitrogenIsNotCalledOxygen()
{
    const std::vector<Ask> asks = tablet::asksOf(*m_pack, m_pack->step("inert-purge"), nullptr, {}, {});
    int places = 0;
    for (const Ask& ask : asks) {
        if (ask.fields.size() == 2) {
            ++places;
            QCOMPARE(ask.fields[0].key, std::string("oxygen"));
            QCOMPARE(ask.fields[0].caption, QStringLiteral("Oxygen"));
            QCOMPARE(ask.fields[1].key, std::string("fuel"));
            QCOMPARE(ask.fields[1].caption, QStringLiteral("Gas, volume"));
        }
    }
    QCOMPARE(places, 4);
}

// Where the good answer always lies first a thumb learns its place: of all choices with two to four keys it lies first in about one
// in three.
void AskTest::theGoodAnswerLiesAnywhere()
{
    int choices = 0;
    int first = 0;
    for (std::size_t step = 0; step < m_pack->steps.size(); ++step) {
        const auto index = static_cast<rules::Index>(step);
        const std::vector<Ask> asks = tablet::asksOf(*m_pack, index, nullptr, {}, {});
        const std::vector<Ask> again = tablet::asksOf(*m_pack, index, nullptr, {}, {});
        for (std::size_t i = 0; i < asks.size(); ++i) {
            const bool of_words = asks[i].hand == Hand::Choice && asks[i].options.size() > 1 && asks[i].options.size() <= 4
                && asks[i].fields.size() == 1 && asks[i].fields.front().fact != rules::kNone;
            if (of_words) {
                ++choices;
                first += asks[i].options.front().word == m_pack->facts[asks[i].fields.front().fact].example ? 1 : 0;
                QVERIFY(std::ranges::equal(asks[i].options, again[i].options, {}, &tablet::Option::word, &tablet::Option::word));
            }
        }
    }
    QVERIFY(choices > 50);
    QVERIFY2(first * 10 > choices * 2 && first * 10 < choices * 6, qPrintable(QStringLiteral("%1 of %2").arg(first).arg(choices)));
}

void AskTest::aReadingRoundShowsOxygenFirst()
{
    const std::vector<Ask> asks = tablet::asksOf(*m_pack, m_pack->step("readings-wet"), nullptr, {}, {});
    int places = 0;
    for (const Ask& ask : asks) {
        if (ask.fields.size() == 2) {
            ++places;
            QCOMPARE(ask.fields[0].dimension, quantity::Dimension::VolumeShare);
            QCOMPARE(ask.fields[1].dimension, quantity::Dimension::LimitShare);
            QVERIFY(!ask.member.empty());
        }
    }
    QCOMPARE(places, 5); // vent, cut, ground, low left, low right
}

void AskTest::needsSayTheirSide()
{
    // Limits as rules/base/steps/150-brim.json and 170-readings-wet.json have them.
    const QString soak = tablet::needOf(*m_pack, m_pack->fact("brim.ran-over"), {});
    QVERIFY2(soak.contains(QLatin1String("or more")), qPrintable(soak));
    const QString gas = tablet::needOf(*m_pack, m_pack->fact("readings-wet.fresh-gas"), {});
    QVERIFY2(gas.contains(QLatin1String("or less")) && gas.contains(QLatin1String("%LEL")), qPrintable(gas));
    const QString oxygen = tablet::needOf(*m_pack, m_pack->fact("readings-wet.fresh-oxygen"), {});
    QVERIFY2(oxygen.contains(QLatin1String("20.4")) && oxygen.contains(QLatin1String("21.4")), qPrintable(oxygen));
    QVERIFY(tablet::needOf(*m_pack, m_pack->fact("identity.serial"), {}).isEmpty());
}

void AskTest::outsideIsOutsideTheSameLimit()
{
    const rules::Index oxygen = m_pack->fact("readings-wet.fresh-oxygen"); // 20.4 % to 21.4 %, counted in ppm
    QVERIFY(tablet::isOutside(*m_pack, oxygen, 203'999));
    QVERIFY(!tablet::isOutside(*m_pack, oxygen, 204'000));
    QVERIFY(!tablet::isOutside(*m_pack, oxygen, 214'000));
    QVERIFY(tablet::isOutside(*m_pack, oxygen, 214'001));
    const rules::Index fill = m_pack->fact("brim.fill"); // at least 1
    QVERIFY(tablet::isOutside(*m_pack, fill, 0));
    QVERIFY(!tablet::isOutside(*m_pack, fill, 1));
}

BRIMFUL_SUITE(AskTest);
#include "ask_test.moc"
