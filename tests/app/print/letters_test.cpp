// Colours that can be read and letters that exist.
#include "app/print/pages.h"
#include "app/print/paint.h"
#include "tests/app/print/sample_audit.h"
#include "tests/app/print/sample_views.h"
#include "tests/support/suite.h"

#include <QFontMetricsF>
#include <QRawFont>
#include <QTest>

#include <cmath>

using namespace brimful;
using print::Palette;

namespace {

// WCAG 2.2, relative luminance and contrast ratio.
double luminance(const QColor& colour)
{
    const auto part = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    return 0.2126 * part(colour.redF()) + 0.7152 * part(colour.greenF()) + 0.0722 * part(colour.blueF());
}
double contrast(const QColor& a, const QColor& b)
{
    const double high = std::max(luminance(a), luminance(b));
    return (high + 0.05) / (std::min(luminance(a), luminance(b)) + 0.05);
}

} // namespace

class LettersTest : public QObject {
    Q_OBJECT
private slots:
    void initTestCase() { print::loadFonts(); }

    void contrastIsKnown()
    {
        QVERIFY(std::abs(contrast(Qt::black, Qt::white) - 21.0) < 0.01); // WCAG's own extremes
        QVERIFY(std::abs(contrast(QColor("#767676"), Qt::white) - 4.54) < 0.01); // the grey that WCAG examples give as 4.54:1
    }

    void textCanBeRead_data()
    {
        QTest::addColumn<int>("theme");
        QTest::newRow("light") << 0;
        QTest::newRow("dark") << 1;
        QTest::newRow("sunlight") << 2;
        QTest::newRow("one colour") << 3;
    }
    void textCanBeRead()
    {
        QFETCH(int, theme);
        const Palette p = theme == 0 ? Palette::light()
            : theme == 1             ? Palette::dark()
            : theme == 2             ? Palette::sunlight()
                                     : Palette::paperOneColour();
        const std::vector<std::pair<QColor, QColor>> pairs{{p.ink, p.paper}, {p.ink, p.panel}, {p.ink2, p.paper}, {p.ink2, p.panel},
            {p.ink, p.steel}, {p.water_ink, p.water}, {p.water_ink, p.paper}, {p.water_ink, p.panel}, {p.gas_ink, p.gas},
            {p.gas_ink, p.paper}, {p.gas_ink, p.panel}, {p.act_text, p.act}, {p.danger_text, p.danger}, {p.warning_text, p.warning},
            {p.caution_text, p.caution}, {p.notice_text, p.notice}};
        for (const auto& [text, ground] : pairs) {
            QVERIFY2(contrast(text, ground) >= 7.0,
                qPrintable(QStringLiteral("%1 on %2: %3").arg(text.name(), ground.name()).arg(contrast(text, ground))));
        }
        QVERIFY(contrast(p.line, p.paper) >= 3.0);
        QVERIFY(contrast(p.line, p.panel) >= 3.0);
    }

    // The plain face is not the fixed one, whatever the machine has installed.
    void facesAreWhatTheyAre()
    {
        for (const bool bold : {false, true}) {
            QFont plain(print::fontFamily());
            plain.setPixelSize(100);
            plain.setBold(bold);
            QVERIFY(QFontMetricsF(plain).horizontalAdvance('i') < 0.6 * QFontMetricsF(plain).horizontalAdvance('W'));
            QFont mono(print::monoFamily());
            mono.setPixelSize(100);
            mono.setBold(bold);
            QVERIFY(std::abs(QFontMetricsF(mono).horizontalAdvance('i') - QFontMetricsF(mono).horizontalAdvance('W')) < 0.5);
            QCOMPARE(QRawFont::fromFont(plain).weight() > QFont::Medium, bold);
            QCOMPARE(QRawFont::fromFont(mono).weight() > QFont::Medium, bold);
        }
    }

    // Every letter that is printed stands in B612: a substitute would look right here and be a box elsewhere.
    void noLetterIsMissing()
    {
        QString all = print::auditText(test::heldAudit(), test::basePack(), test::eastCoast())
            + print::auditText(test::releasedAudit(), test::basePack(), test::eastCoast());
        for (const auto& [key, english] : test::basePack().strings) {
            all += QString::fromStdString(english);
        }
        all += QStringLiteral("0123456789 .,:;-+()/%°×?'\"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz½¼¾⅛⅜⅝⅞");
        for (const char* word : {"DO NOT CUT HEAT FILL OR MOVE.", "ends at the latest", "tilt 0.3°, drawn 3 times as steep"}) {
            all += QString::fromUtf8(word);
        }
        for (const bool bold : {false, true}) {
            QFont font(print::fontFamily());
            font.setBold(bold);
            const QRawFont face = QRawFont::fromFont(font);
            QVERIFY(face.familyName() == print::fontFamily());
            for (const QChar letter : all) {
                QVERIFY2(
                    letter.isSpace() || face.supportsCharacter(letter), qPrintable(QStringLiteral("U+%1").arg(letter.unicode(), 4, 16)));
            }
        }
        QVERIFY(!QRawFont::fromFont(QFont(print::fontFamily())).supportsCharacter(QChar(0x2044))); // it can fail: B612 lacks U+2044
    }
};
BRIMFUL_SUITE(LettersTest);
#include "letters_test.moc"
