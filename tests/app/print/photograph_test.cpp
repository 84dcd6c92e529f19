// Photographs as the record keeps them: small, upright, and with nothing in the file but the picture.
#include "app/print/photograph.h"

#include "app/print/photo_check.h"
#include "app/print/symbol.h"
#include "tests/support/suite.h"

#include <QBuffer>
#include <QImage>
#include <QImageWriter>
#include <QRandomGenerator>
#include <QTest>

#include <bit>
#include <numbers>

using namespace brimful;

namespace {

QByteArray written(const QImage& picture, const char* format)
{
    QByteArray out;
    QBuffer to(&out);
    to.open(QIODevice::WriteOnly);
    QImageWriter(&to, format).write(picture);
    return out;
}

// An APP1 segment as cameras write it (Exif 2.3, JEITA CP-3451): byte order, one entry 0x0112 "orientation", a text 0x010e.
QByteArray exif(char orientation)
{
    const QByteArray text("taken at 51.5 N 0.1 W by a phone", 32);
    QByteArray tiff("II\x2a\0\x08\0\0\0\x02\0", 10);
    tiff += QByteArray("\x0e\x01\x02\0\x20\0\0\0\x26\0\0\0", 12);
    tiff += QByteArray("\x12\x01\x03\0\x01\0\0\0", 8) + QByteArray(1, orientation) + QByteArray("\0\0\0", 3);
    tiff += QByteArray("\0\0\0\0", 4) + text;
    const QByteArray data = QByteArray("Exif\0\0", 6) + tiff;
    const auto size = static_cast<quint16>(data.size() + 2);
    return QByteArray("\xff\xe1", 2) + QByteArray(1, static_cast<char>(size >> 8)) + QByteArray(1, static_cast<char>(size & 0xff)) + data;
}

QImage halves(int width, int height)
{
    QImage picture(width, height, QImage::Format_RGB32);
    picture.fill(Qt::red);
    for (int y = 0; y < height; ++y) {
        for (int x = width / 2; x < width; ++x) {
            picture.setPixelColor(x, y, Qt::blue);
        }
    }
    return picture;
}

QImage bare(const QByteArray& bytes)
{
    const auto out = print::barePhotograph(bytes.toStdString());
    return out ? QImage::fromData(QByteArray::fromStdString(out->bytes), "JPG") : QImage();
}

QByteArray saved(const QImage& picture, int quality)
{
    QByteArray out;
    QBuffer to(&out);
    to.open(QIODevice::WriteOnly);
    picture.save(&to, "jpg", quality);
    return out;
}

QImage lit(const QImage& picture, int by)
{
    QImage out = picture.convertToFormat(QImage::Format_RGB32);
    for (int y = 0; y < out.height(); ++y) {
        for (int x = 0; x < out.width(); ++x) {
            const QColor was = out.pixelColor(x, y);
            const auto more = [&](int part) { return std::clamp(part + by, 0, 255); };
            out.setPixelColor(x, y, QColor(more(was.red()), more(was.green()), more(was.blue())));
        }
    }
    return out;
}

// A shell on two saddles in a shed, each time another one.
QImage scene(quint32 seed)
{
    QRandomGenerator chance(seed);
    const auto any = [&](int from, int to) { return static_cast<int>(chance.bounded(from, to)); };
    QImage picture(1280, 960, QImage::Format_RGB32);
    picture.fill(QColor(any(90, 190), any(90, 190), any(90, 190)));
    QPainter painter(&picture);
    for (int i = 0; i < 14; ++i) {
        painter.fillRect(any(0, 1200), any(0, 700), any(20, 260), any(20, 400), QColor(any(30, 220), any(30, 220), any(30, 220)));
    }
    const QRect shell(any(80, 300), any(250, 400), any(600, 850), any(220, 340));
    painter.setPen(QPen(Qt::black, 5));
    painter.setBrush(QColor(any(80, 210), any(80, 210), any(80, 210)));
    painter.drawRoundedRect(shell, 100, 100);
    painter.setBrush(Qt::black);
    for (const int saddle : {shell.left() + 120, shell.right() - 200}) {
        painter.drawRect(saddle, shell.bottom() - 10, 80, 150);
    }
    for (int i = any(2, 6); i > 0; --i) {
        painter.drawRect(any(shell.left() + 50, shell.right() - 50), shell.top() - 50, 44, 60);
    }
    return picture;
}

int bitsApart(const ledger::Look& one, const ledger::Look& other)
{
    int bits = 0;
    for (std::size_t i = 0; i < one.value.size(); ++i) {
        bits += std::popcount(static_cast<unsigned>(one.value.at(i) ^ other.value.at(i)));
    }
    return bits;
}

} // namespace

class PhotographTest : public QObject {
    Q_OBJECT

private slots:
    void isMadeSmall_data()
    {
        QTest::addColumn<QSize>("given");
        QTest::addColumn<QSize>("kept");
        QTest::newRow("wide") << QSize(3200, 1200) << QSize(1600, 600);
        QTest::newRow("high") << QSize(900, 3200) << QSize(450, 1600);
        QTest::newRow("small enough") << QSize(640, 480) << QSize(640, 480);
        QTest::newRow("just") << QSize(1600, 1600) << QSize(1600, 1600);
    }
    void isMadeSmall()
    {
        QFETCH(const QSize, given);
        QFETCH(const QSize, kept);
        for (const char* format : {"JPG", "PNG"}) {
            const QImage out = bare(written(halves(given.width(), given.height()), format));
            QCOMPARE(out.size(), kept);
            const QColor left = out.pixelColor(out.width() / 4, out.height() / 2);
            const QColor right = out.pixelColor(3 * out.width() / 4, out.height() / 2);
            QVERIFY(left.red() > 230 && left.blue() < 25 && right.blue() > 230 && right.red() < 25);
        }
    }

    // Whatever stands beside the picture in the file is gone; how the camera was held is kept in the picture itself.
    void isStripped()
    {
        QByteArray jpeg = written(halves(400, 200), "JPG");
        jpeg.insert(2, exif(6)); // turned a quarter: what was left is up
        const auto out = print::barePhotograph(jpeg.toStdString());
        QVERIFY(out);
        const QByteArray kept = QByteArray::fromStdString(out->bytes);
        QVERIFY(jpeg.contains("taken at") && jpeg.contains("Exif"));
        QVERIFY(!kept.contains("taken at") && !kept.contains("Exif"));
        const QImage picture = QImage::fromData(kept, "JPG");
        QCOMPARE(picture.size(), QSize(200, 400));
        QVERIFY(picture.pixelColor(100, 50).red() > 230);
        QVERIFY(picture.pixelColor(100, 350).blue() > 230);

        QImage noted = halves(300, 100);
        noted.setText("Comment", "taken at 51.5 N");
        const QByteArray png = written(noted, "PNG");
        QVERIFY(png.contains("Comment"));
        QVERIFY(!QByteArray::fromStdString(print::barePhotograph(png.toStdString())->bytes).contains("51.5"));
    }

    void sameBytesEachTime()
    {
        const std::string jpeg = written(halves(2000, 1000), "JPG").toStdString();
        QCOMPARE(print::barePhotograph(jpeg)->bytes, print::barePhotograph(jpeg)->bytes);
    }

    // A picture of one wave of the cosine transform (DCT-II, Ahmed and others, 1974) has that wave's coefficient and no other: the bit
    // says whether it is above the others or below. Worked by hand: waves are counted from 1 along each side, row by row.
    void theLookIsTheSignsOfTheWaves()
    {
        for (const auto& [across, down] : {std::pair{1, 1}, {3, 2}, {8, 5}, {2, 8}}) {
            for (const int sign : {1, -1}) {
                QImage grey(32, 32, QImage::Format_Grayscale8);
                for (int y = 0; y < 32; ++y) {
                    for (int x = 0; x < 32; ++x) {
                        const double wave =
                            std::cos(std::numbers::pi * across * (2 * x + 1) / 64) * std::cos(std::numbers::pi * down * (2 * y + 1) / 64);
                        grey.scanLine(y)[x] = static_cast<uchar>(std::lround(128 + sign * 100 * wave));
                    }
                }
                const ledger::Look look = print::lookOf(grey).value();
                const auto bit = static_cast<std::size_t>((down - 1) * 8 + across - 1);
                QCOMPARE((look.value.at(bit / 8) & 0x80U >> bit % 8) != 0, sign > 0);
            }
        }
    }

    // The same picture saved again is near, another is far: the figures of the 64 bits that kAlikeBits rests on, in small.
    void aCopyLooksAlike()
    {
        int farthest_copy = 0;
        int nearest_other = 64;
        std::vector<ledger::Look> looks;
        for (quint32 seed = 1; seed <= 6; ++seed) {
            const QImage drawn = scene(seed);
            const auto look = print::barePhotograph(written(drawn, "JPG").toStdString())->look;
            QVERIFY(look);
            for (const ledger::Look& other : looks) {
                nearest_other = std::min(nearest_other, bitsApart(*look, other));
            }
            looks.push_back(*look);
            for (const int quality : {15, 50}) {
                for (const double size : {0.25, 0.75}) {
                    for (const int lighter : {-30, 0, 30}) {
                        const QImage copy =
                            lit(drawn.scaled(drawn.size() * size, Qt::IgnoreAspectRatio, Qt::SmoothTransformation), lighter);
                        const auto again = print::barePhotograph(saved(copy, quality).toStdString())->look;
                        QVERIFY(again);
                        farthest_copy = std::max(farthest_copy, bitsApart(*look, *again));
                    }
                }
            }
        }
        qInfo("copies differ in %d bits at most, others in %d at least", farthest_copy, nearest_other);
        QVERIFY(farthest_copy <= 8);
        QVERIFY(nearest_other > 8);
    }

    // What is seen goes with the bytes; what shows too little to be told from others has no look.
    void whatIsSeenGoesAlong()
    {
        const QImage drawn = scene(1);
        const auto bright = print::barePhotograph(written(drawn, "PNG").toStdString());
        QVERIFY(!bright->dark && !bright->blurred && !bright->symbol && bright->look);
        const auto dark = print::barePhotograph(written(lit(drawn, -220), "PNG").toStdString());
        QVERIFY(dark->dark && !dark->look);
        QImage flat(640, 480, QImage::Format_RGB32);
        flat.fill(Qt::gray);
        const auto blurred = print::barePhotograph(written(flat, "PNG").toStdString());
        QVERIFY(!blurred->dark && blurred->blurred && !blurred->look);
        const auto symbol = print::encodeSymbol("WHOSE TAG IT IS THE YARD SAYS");
        QVERIFY(symbol);
        QImage tagged = drawn;
        {
            QPainter painter(&tagged);
            print::paintSymbol(painter, *symbol, QPointF(200, 200), 8, Qt::black, Qt::white);
        }
        QCOMPARE(
            print::barePhotograph(written(tagged, "JPG").toStdString())->symbol.value_or(""), std::string("WHOSE TAG IT IS THE YARD SAYS"));
    }

    void whatIsNoPicture()
    {
        QVERIFY(!print::barePhotograph({}));
        QVERIFY(!print::barePhotograph("%PDF-1.7"));
        QVERIFY(!print::barePhotograph("\xff\xd8\xff and nothing more"));
        QVERIFY(!print::barePhotograph(written(halves(300, 100), "PNG").left(40).toStdString()));
    }
};
BRIMFUL_SUITE(PhotographTest);

#include "photograph_test.moc"
