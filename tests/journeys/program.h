// The command line program as a script or a person at a terminal meets it: arguments, standard input, exit code,
// what it printed. Nothing here knows the code behind it.
#pragma once

#include <QByteArray>
#include <QJsonObject>
#include <QString>
#include <QStringList>
#include <QTemporaryDir>

#include <functional>

namespace brimful::test {

// Exit codes of the command line.
inline constexpr int kYes = 0;
inline constexpr int kNo = 1;
inline constexpr int kInput = 2;
inline constexpr int kDamaged = 3;
inline constexpr int kMachine = 4;
inline constexpr int kCrashed = -1; // ended by a signal, not started, or not ended within two minutes

struct Said {
    int code{kCrashed};
    QByteArray out;
    QByteArray err;

    [[nodiscard]] QJsonObject json() const; // of standard output; empty when it is not one object
    [[nodiscard]] QJsonObject error() const; // "error" of standard error
};

[[nodiscard]] QString program(); // path of brimful

// `before_start` runs in the child between fork and exec (another user, limits).
Said run(const QString& file, const QStringList& arguments, const QByteArray& input = {}, const std::function<void()>& before_start = {});
Said call(const QStringList& arguments, const QByteArray& input = {});

// PIN lines for the people of the demo yard, or of a yard made here (the same names have the same PINs).
[[nodiscard]] QByteArray pins(const QStringList& people);

// A yard's folder that goes away with this object.
class Place {
public:
    [[nodiscard]] QString path(const QString& name) const { return m_folder.filePath(name); }
    [[nodiscard]] QString yard() const { return path(QStringLiteral("yard")); }
    // The demo yard, new: its running clocks are of this minute.
    [[nodiscard]] bool makeDemo() const;
    // `brimful --yard HERE --json ...`
    Said ask(const QStringList& arguments) const;
    // The same, signed by these people.
    Said act(const QStringList& arguments, const QStringList& signers) const;
    // One value by the sqlite3 shell.
    QString sql(const QString& statement) const;
    QString write(const QString& name, const QByteArray& bytes) const; // a file beside the yard; its path

private:
    QTemporaryDir m_folder;
};

// What a failed comparison shows of a run.
[[nodiscard]] QByteArray told(const Said& said);

} // namespace brimful::test
