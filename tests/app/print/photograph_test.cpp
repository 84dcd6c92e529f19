// Photographs as the record keeps them: small, upright, and with nothing in the file but the picture.
#include "app/print/photograph.h"
#include "tests/support/suite.h"

#include <QBuffer>
#include <QImage>
#include <QImageWriter>
#include <QTest>

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
    return out ? QImage::fromData(QByteArray::fromStdString(*out), "JPG") : QImage();
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
        const QByteArray kept = QByteArray::fromStdString(*out);
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
        QVERIFY(!QByteArray::fromStdString(*print::barePhotograph(png.toStdString())).contains("51.5"));
    }

    void sameBytesEachTime()
    {
        const std::string jpeg = written(halves(2000, 1000), "JPG").toStdString();
        QCOMPARE(*print::barePhotograph(jpeg), *print::barePhotograph(jpeg));
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
