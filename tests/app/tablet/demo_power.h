// A folder of power supplies as Linux shows them, made by a test.
#pragma once

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <filesystem>

namespace brimful::test {

class DemoPower {
public:
    [[nodiscard]] std::filesystem::path folder() const { return m_dir.path().toStdString(); }
    void write(const QString& supply, const QString& name, const QByteArray& text) const
    {
        QDir(m_dir.path()).mkpath(supply);
        QFile file(m_dir.filePath(supply + u'/' + name));
        if (file.open(QIODevice::WriteOnly)) {
            file.write(text + '\n');
        }
    }
    void battery(int percent, const QByteArray& status, const QString& supply = QStringLiteral("BAT0")) const
    {
        write(supply, QStringLiteral("type"), "Battery");
        write(supply, QStringLiteral("present"), "1");
        write(supply, QStringLiteral("capacity"), QByteArray::number(percent));
        write(supply, QStringLiteral("status"), status);
    }

private:
    QTemporaryDir m_dir;
};

} // namespace brimful::test
