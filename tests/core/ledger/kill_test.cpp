// A program killed at any moment: what it acknowledged is there, nothing is there twice, nothing is broken.
#include "core/ledger/ledger.h"
#include "tests/core/ledger/history.h"
#include "tests/support/suite.h"

#include <QTest>

#include <csignal>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

using namespace brimful;
using ledger::Kind;
using ledger::Ledger;
using ledger::Mode;

namespace {

// Appends events one by one and says each acknowledged seq through the pipe, until it is killed.
[[noreturn]] void writeUntilKilled(const std::filesystem::path& file, const test::History& made, int pipe)
{
    auto ledger = Ledger::open(file, Mode::ReadWrite);
    for (int i = 0; ledger; ++i) {
        std::uint64_t seq = 0;
        const auto done = ledger->appendWith([&]() -> tl::expected<std::vector<ledger::Stored>, ledger::StoreError> {
            const auto tip = ledger->tip(made.device);
            ledger::Entry entry = made.draft(Kind::Event, test::payload({{"event", "moved"}, {"note", std::string(400, 'x')}}));
            entry.seq = tip->seq + 1;
            entry.prev = tip->head;
            entry.parents = {*tip->head};
            seq = entry.seq;
            return std::vector<ledger::Stored>{made.sign(entry, nullptr)};
        });
        if (!done || ::write(pipe, &seq, sizeof seq) != sizeof seq) {
            break;
        }
        if (i % 7 == 6) {
            (void)ledger->checkpoint();
        }
    }
    ::_exit(1);
}

} // namespace

class KillTest : public QObject {
    Q_OBJECT

private slots:
    void nothingLostNothingDoubled()
    {
        const int kills = qEnvironmentVariableIsSet("BRIMFUL_DEEP") ? 300 : 40;
        test::History history;
        test::Shelf shelf;
        history.write(shelf.file());
        std::mt19937 random(5);
        std::uint64_t acknowledged = history.rows.size();
        for (int kill = 0; kill < kills; ++kill) {
            std::array<int, 2> pipe{};
            QCOMPARE(::pipe(pipe.data()), 0);
            const pid_t child = ::fork();
            if (child == 0) {
                writeUntilKilled(shelf.file(), history, pipe[1]);
            }
            ::close(pipe[1]);
            ::usleep(std::uniform_int_distribution<useconds_t>(2'000, 60'000)(random));
            ::kill(child, SIGKILL);
            int status = 0;
            ::waitpid(child, &status, 0);
            QVERIFY2(WIFSIGNALED(status), "it stopped by itself");
            for (std::uint64_t seq = 0; ::read(pipe[0], &seq, sizeof seq) == sizeof seq;) {
                QVERIFY(seq > acknowledged);
                acknowledged = seq;
            }
            ::close(pipe[0]);
            const auto tip = Ledger::open(shelf.file(), Mode::ReadOnly)->tip(history.device);
            QVERIFY(tip->seq >= acknowledged);
            QVERIFY(tip->seq <= acknowledged + 1); // committed, killed before it could say so
            acknowledged = tip->seq;
        }
        const auto verification = test::verified(shelf.file());
        QCOMPARE(QByteArray::fromStdString(test::findingsText(verification)), QByteArray());
        QCOMPARE(verification.entries, acknowledged);
        QVERIFY2(acknowledged > history.rows.size() + 20, "hardly anything was written");
    }
};
BRIMFUL_SUITE(KillTest);

#include "kill_test.moc"
