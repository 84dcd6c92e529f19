#include "tests/journeys/program.h"

#include <QFile>
#include <QJsonDocument>
#include <QMap>
#include <QProcess>

namespace brimful::test {

QJsonObject Said::json() const { return QJsonDocument::fromJson(out).object(); }

QJsonObject Said::error() const { return QJsonDocument::fromJson(err).object().value(QLatin1String("error")).toObject(); }

QString program() { return QStringLiteral(BRIMFUL_PROGRAM); }

Said run(const QString& file, const QStringList& arguments, const QByteArray& input, const std::function<void()>& before_start)
{
    QProcess process;
    if (before_start) {
        process.setChildProcessModifier(before_start);
    }
    process.start(file, arguments);
    process.write(input);
    process.closeWriteChannel();
    const bool ended = process.waitForFinished(120'000);
    Said said;
    said.out = process.readAllStandardOutput();
    said.err = process.readAllStandardError();
    if (ended && process.exitStatus() == QProcess::NormalExit) {
        said.code = process.exitCode();
    }
    return said;
}

Said call(const QStringList& arguments, const QByteArray& input) { return run(program(), arguments, input); }

QByteArray pins(const QStringList& people)
{
    static const QMap<QString, QByteArray> kPins{{QStringLiteral("Ada"), "480263"}, {QStringLiteral("Rosa"), "739158"},
        {QStringLiteral("Tam"), "916472"}, {QStringLiteral("Bea"), "584639"}, {QStringLiteral("Odd"), "862974"}};
    QByteArray lines;
    for (const QString& person : people) {
        lines += kPins.value(person) + '\n';
    }
    return lines;
}

bool Place::makeDemo() const { return call({QStringLiteral("demo"), yard()}).code == kYes; }

Said Place::ask(const QStringList& arguments) const
{
    return call(QStringList{QStringLiteral("--yard"), yard(), QStringLiteral("--json")} + arguments);
}

Said Place::act(const QStringList& arguments, const QStringList& signers) const
{
    return call(
        QStringList{QStringLiteral("--yard"), yard(), QStringLiteral("--json"), QStringLiteral("--pin-stdin")} + arguments, pins(signers));
}

QString Place::sql(const QString& statement) const
{
    const Said said = run(QStringLiteral("sqlite3"), {yard() + QStringLiteral("/ledger.db"), statement});
    return said.code == 0 ? QString::fromUtf8(said.out).trimmed() : QStringLiteral("sqlite3: ") + QString::fromUtf8(said.err);
}

QString Place::write(const QString& name, const QByteArray& bytes) const
{
    QFile file(path(name));
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size()) {
        qFatal("not written: %s", qPrintable(file.fileName()));
    }
    return file.fileName();
}

QByteArray told(const Said& said)
{
    return "exit " + QByteArray::number(said.code) + "\nout: " + said.out.left(2000) + "\nerr: " + said.err.left(2000);
}

} // namespace brimful::test
