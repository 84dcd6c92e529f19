// Pictures as a phone brings them: an hour apart, the newest of a minute ago.
#pragma once

#include <QDateTime>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QTemporaryDir>

namespace brimful::test {

class DemoPictures {
public:
    explicit DemoPictures(int count)
    {
        for (int i = 0; i < count; ++i) {
            QImage picture(640, 480, QImage::Format_RGB32);
            picture.fill(QColor::fromHsv(i * 47 % 360, 120, 150));
            QPainter painter(&picture);
            painter.setPen(Qt::white);
            painter.setBrush(QColor(60, 60, 66));
            painter.drawRoundedRect(80, 160, 480, 160, 80, 80);
            painter.drawRect(280 + i * 12, 120, 60, 40);
            painter.end();
            picture.save(file(i), "jpg");
            setAge(file(i), 60 + 3600 * i);
        }
        qputenv("BRIMFUL_PHOTOS", m_dir.path().toUtf8());
    }
    ~DemoPictures() { qunsetenv("BRIMFUL_PHOTOS"); }
    DemoPictures(const DemoPictures&) = delete;
    DemoPictures& operator=(const DemoPictures&) = delete;

    [[nodiscard]] QString folder() const { return m_dir.path(); }
    [[nodiscard]] QString file(int i) const { return m_dir.filePath(QStringLiteral("%1.jpg").arg(i, 4, 10, QLatin1Char('0'))); }
    static void setAge(const QString& path, int seconds)
    {
        QFile file(path);
        if (file.open(QIODevice::ReadWrite)) {
            file.setFileTime(QDateTime::currentDateTimeUtc().addSecs(-seconds), QFileDevice::FileModificationTime);
        }
    }

private:
    QTemporaryDir m_dir;
};

} // namespace brimful::test
