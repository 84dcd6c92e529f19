// Every screen at every size of glass and of text, in long words, read from either side: nothing is cut, nothing overlaps, every
// key keeps its size, and every word can be translated. BRIMFUL_LOOKS=all looks at each screen in every way; else each screen is
// seen in every pair of two ways. BRIMFUL_PICTURES=1 keeps what was seen in screens/fitting of the build folder.
#include "tests/qml/long_text.h"
#include "tests/qml/scenes.h"
#include "tests/support/suite.h"

#include <QGuiApplication>
#include <QQuickItem>
#include <QRegularExpression>
#include <QTest>
#include <QTranslator>

#include <algorithm>
#include <limits>

using namespace brimful;
using test::LongText;
using test::Shown;

namespace {

struct Way {
    QSize size;
    int text;
    bool right_to_left;
};

constexpr QSize kWide(1280, 800);
constexpr QSize kUpright(800, 1280);
constexpr QSize kDesk(1920, 1200);

// Six ways, three of them in English and three in long words, hold every pair of size, text, language and side.
std::vector<Way> waysOf(bool long_text)
{
    if (qEnvironmentVariable("BRIMFUL_LOOKS") != QLatin1String("all")) {
        return long_text ? std::vector<Way>{{kWide, 200, false}, {kUpright, 100, true}, {kDesk, 100, false}}
                         : std::vector<Way>{{kWide, 100, true}, {kUpright, 200, false}, {kDesk, 200, true}};
    }
    std::vector<Way> all;
    for (const QSize size : {kWide, kUpright, kDesk}) {
        for (const int text : {100, 125, 150, 175, 200}) {
            for (const bool right_to_left : {false, true}) {
                all.push_back({size, text, right_to_left});
            }
        }
    }
    return all;
}

QString nameOf(const Way& way, bool long_text)
{
    return QStringLiteral("%1x%2-%3%4%5")
        .arg(way.size.width())
        .arg(way.size.height())
        .arg(way.text)
        .arg(long_text ? QStringLiteral("-long") : QString(), way.right_to_left ? QStringLiteral("-rtl") : QString());
}

void apply(Shown& shown, const Way& way)
{
    QGuiApplication::setLayoutDirection(way.right_to_left ? Qt::RightToLeft : Qt::LeftToRight);
    shown.program().setTextSize(way.text);
    shown.resize(way.size);
}

// What a person typed, a number, a sign of a unit and a code are the same in every language.
bool isData(QString words)
{
    static const QStringList kUnits{QStringLiteral("in"), QStringLiteral("ft"), QStringLiteral("mm"), QStringLiteral("m"),
        QStringLiteral("gal"), QStringLiteral("L"), QStringLiteral("LEL"), QStringLiteral("lb"), QStringLiteral("lbf"),
        QStringLiteral("kg"), QStringLiteral("psi"), QStringLiteral("bar"), QStringLiteral("min"), QStringLiteral("h"), QStringLiteral("s"),
        QStringLiteral("ppm"), QStringLiteral("cfm")};
    static const QStringList kTyped{QStringLiteral("Ada"), QStringLiteral("Rosa"), QStringLiteral("Tam"), QStringLiteral("Bea"),
        QStringLiteral("Odd"), QStringLiteral("Eli"), QStringLiteral("Ness Quay Works"), QStringLiteral("Test Yard")};
    static const QRegularExpression kCodes(QStringLiteral("\\b[0-9A-Z]+(-[0-9A-Z]+)+\\b|\\b[0-9A-Z]*[0-9][0-9A-Z]*\\b|/[^ ]+"));
    static const QRegularExpression kBetween(QStringLiteral("[^\\p{L}]+"));
    for (const QString& typed : kTyped) {
        words.remove(typed);
    }
    words.remove(kCodes);
    const QStringList left = words.split(kBetween, Qt::SkipEmptyParts);
    return std::ranges::all_of(left, [](const QString& one) { return one.size() == 1 || kUnits.contains(one); });
}

QStringList untranslated(const Shown& shown)
{
    QStringList found;
    for (const QString& words : shown.words()) {
        if (const QString bare = LongText::outside(words); !isData(bare)) {
            found.append(QStringLiteral("not translated: %1").arg(words));
        }
    }
    found.removeDuplicates();
    return found;
}

} // namespace

class FittingTest : public QObject {
    Q_OBJECT

private slots:
    void fits_data();
    void fits();
    void lettersGrowByPressesAndStay();
    void aNewAskBeginsAtItsFirstPage();
    void aMirroredScreenKeepsItsNumbers();
    void aWordWithoutATranslationIsFound();
    void cleanup() { QGuiApplication::setLayoutDirection(Qt::LeftToRight); }
};

void FittingTest::fits_data()
{
    QTest::addColumn<QString>("scene");
    QTest::addColumn<bool>("long_text");
    for (const test::Scene& one : test::scenes()) {
        QTest::addRow("%s", one.name) << QString::fromLatin1(one.name) << false;
        QTest::addRow("%s long", one.name) << QString::fromLatin1(one.name) << true;
    }
}

void FittingTest::fits()
{
    QFETCH(QString, scene);
    QFETCH(bool, long_text);
    const auto language = long_text ? std::make_unique<LongText>() : nullptr;
    const auto stage = test::Stage::of(test::sceneOf(scene), kWide);
    Shown& shown = stage->shown();
    QStringList found;
    for (const Way& way : waysOf(long_text)) {
        apply(shown, way);
        const QString name = nameOf(way, long_text);
        if (qEnvironmentVariableIsSet("BRIMFUL_PICTURES")) {
            shown.picture(QStringLiteral("fitting/%1-%2").arg(scene, name));
        }
        for (const QString& flaw : shown.flaws() + shown.turned()) {
            found.append(name + QStringLiteral(": ") + flaw);
        }
    }
    if (long_text) {
        found += untranslated(shown);
    }
    QVERIFY2(found.isEmpty(), qPrintable(found.join(QStringLiteral("\n    "))));
    QVERIFY2(shown.warnings().isEmpty(), qPrintable(shown.warnings().join(QStringLiteral("\n    "))));
}

// The size of text is the tablet's: kept with it, as the theme is.
void FittingTest::lettersGrowByPressesAndStay()
{
    const test::DemoYard demo;
    {
        Shown shown(kWide, demo.folder());
        shown.program().setUp();
        shown.settle();
        QList<int> sizes;
        for (int i = 0; i < 5; ++i) {
            sizes.append(shown.program().textSize());
            QQuickItem* key = shown.named(QStringLiteral("Text size: %1 %").arg(sizes.back()));
            QVERIFY(key != nullptr);
            QTest::mouseClick(shown.window(), Qt::LeftButton, {}, key->mapToScene(QPointF(key->width() / 2, key->height() / 2)).toPoint());
            shown.settle();
        }
        QCOMPARE(sizes, (QList<int>{100, 125, 150, 175, 200}));
        QCOMPARE(shown.program().textSize(), 100);
        shown.program().nextTextSize();
        shown.program().nextTextSize();
    }
    Shown again(kWide, demo.folder());
    QCOMPARE(again.program().textSize(), 150);
    again.program().setTextSize(137);
    QCOMPARE(again.program().textSize(), 150);
}

// Whoever turned the page of one ask reads the next from its beginning.
void FittingTest::aNewAskBeginsAtItsFirstPage()
{
    const auto stage = test::Stage::of(test::sceneOf(QStringLiteral("03-step-choice")), QSize(800, 1280));
    Shown& shown = stage->shown();
    shown.program().setTextSize(200);
    shown.resize(QSize(800, 1280));
    const auto page = [&]() -> std::optional<double> {
        const QQuickItem* key = shown.named(QStringLiteral("More: the ask"));
        return key == nullptr ? std::nullopt : std::optional(key->property("of").value<QObject*>()->property("contentY").toDouble());
    };
    QCOMPARE(page(), std::optional(0.0));
    QMetaObject::invokeMethod(shown.named(QStringLiteral("More: the ask")), "clicked");
    shown.settle();
    QVERIFY(page() > 0.0);
    tablet::Sheet* sheet = shown.program().sheet();
    const QString before = sheet->askText();
    sheet->choose(sheet->options()->rows().front().key);
    sheet->take();
    shown.settle();
    QVERIFY(sheet->askText() != before);
    QCOMPARE(page(), std::optional(0.0));
}

// Read from the right, what is first stands right; digits, a number with its unit and a drawing's parts stand as ever.
void FittingTest::aMirroredScreenKeepsItsNumbers()
{
    const auto middle = [](Shown& shown, const char* name) {
        QQuickItem* item = shown.named(QString::fromLatin1(name));
        return item == nullptr ? std::numeric_limits<double>::quiet_NaN() : item->mapToScene(QPointF(item->width() / 2, 0)).x();
    };
    const auto stage = test::Stage::of(test::sceneOf(QStringLiteral("03-step-number")), kWide);
    Shown& shown = stage->shown();
    const double back = middle(shown, "Back to Vessel");
    const double pitch = middle(shown, "2") - middle(shown, "1");
    QVERIFY(back < 200 && pitch > 100);
    const double one = middle(shown, "1");
    QGuiApplication::setLayoutDirection(Qt::RightToLeft);
    shown.settle();
    QVERIFY(middle(shown, "Back to Vessel") > 1080);
    QVERIFY(middle(shown, "Speak up") < 200);
    QVERIFY(middle(shown, "1") < 640 && one > 640); // the hand changes sides
    QCOMPARE(middle(shown, "2") - middle(shown, "1"), pitch); // and its digits do not
    QGuiApplication::setLayoutDirection(Qt::LeftToRight);
    shown.settle();
    QCOMPARE(middle(shown, "Back to Vessel"), back);
    QCOMPARE(middle(shown, "1"), one);
}

// The looking itself: a sentence that translators never see is found, one that they do is not.
void FittingTest::aWordWithoutATranslationIsFound()
{
    const LongText language;
    QVERIFY(language.size() > 2000);
    QCOMPARE(QCoreApplication::translate("PlateBar", "Speak\nup"), LongText::lengthened(QStringLiteral("Speak\nup")));
    QCOMPARE(QCoreApplication::translate("PlateBar", "never listed"), QStringLiteral("never listed"));
    const QString sentence = QStringLiteral("%1 of %n is held before hot work");
    const QString longer = LongText::lengthened(sentence);
    QVERIFY(longer.contains(QLatin1String("%1")) && longer.contains(QLatin1String("%n")));
    QVERIFY(longer.size() >= sentence.size() * 135 / 100 && longer.size() <= sentence.size() * 140 / 100);
    QVERIFY(!isData(LongText::outside(QStringLiteral("never listed"))));
    QVERIFY(!isData(LongText::outside(QStringLiteral("[lóng] and short"))));
    QVERIFY(isData(LongText::outside(QStringLiteral("NQ-02, [héld [béfóré]] 483 gal"))));
}

BRIMFUL_SUITE(FittingTest);
#include "fitting_test.moc"
