// What is proved of the base pack, and that a weakened one is named: by the comparison always, by the claims nearly always.
#include "core/rules/proof.h"
#include "tests/core/rules/mutants.h"
#include "tests/core/rules/packs.h"
#include "tests/support/suite.h"

#include <QElapsedTimer>
#include <QTest>

#include <algorithm>
#include <map>
#include <set>

using namespace brimful;
using namespace brimful::rules;
using namespace brimful::test;

namespace {

std::vector<Claim> claimsOf(const PackSource& source, const Pack& pack)
{
    auto claims = loadClaims(source, pack);
    if (!claims) {
        giveUp(told(claims.error()));
    }
    return std::move(*claims);
}

std::string told(const Finding& finding)
{
    std::string out = std::to_string(static_cast<int>(finding.law)) + " " + finding.subject + " " + finding.hold_point + " " + finding.place.file + ":"
        + std::to_string(finding.place.line);
    for (const std::string& one : finding.blame) {
        out += " " + one;
    }
    return out;
}

} // namespace

class ProofTest : public QObject {
    Q_OBJECT
private slots:
    void theBasePackIsProven();
    void weakenedPacksAreNamed();
};

// Everything, as at adoption; in less than the 4 s that a proof may take.
void ProofTest::theBasePackIsProven()
{
    const PackSource& source = shipped("base");
    const Pack pack = loaded(source);
    const auto claims = claimsOf(source, pack);
    QVERIFY(claims.size() >= 40);
    QElapsedTimer timer;
    timer.start();
    const Proof proof = prove(pack, claims, {&pack, {}});
    const qint64 took = timer.elapsed();
    for (const Finding& finding : proof.findings) {
        qWarning("%s", ::told(finding).c_str());
    }
    QVERIFY(proof.findings.empty());
    QCOMPARE(proof.shortest.size(), pack.hold_points.size());
    QCOMPARE(proof.claims, claims.size());
    QCOMPARE(proof.people, 2);
    qInfo("%zu claims, %zu conditions, %zu questions, %lld ms", proof.claims, proof.conditions, proof.questions, static_cast<long long>(took));
    QVERIFY(took < 4000);
}

// Every MUTANT_STEPth (default 37th; 1 in the long campaign). A mutant that grants nothing new changes nothing: it is listed.
void ProofTest::weakenedPacksAreNamed()
{
    const PackSource& source = shipped("base");
    const Pack base = loaded(source);
    const std::vector<Mutant> all = weakened(source);
    const auto every = static_cast<std::size_t>(qEnvironmentVariableIntValue("MUTANT_STEP") > 0 ? qEnvironmentVariableIntValue("MUTANT_STEP") : 37);
    std::map<std::string, std::array<int, 3>> table; // by kind: named by the comparison, by the claims too, equal
    int refused = 0;
    std::vector<std::string> equal;
    std::vector<std::string> unclaimed;
    for (std::size_t i = 0; i < all.size(); i += every) {
        const auto mutant = load(all[i].source, {});
        if (!mutant) {
            ++refused; // named by the loader, with its place
            continue;
        }
        auto& row = table[all[i].kind];
        const bool more = !newlyGranted(*mutant, base, false).empty();
        const auto claims = loadClaims(source, *mutant); // the base pack's claims
        const bool against = !claims || !againstClaims(*mutant, *claims, false).empty();
        if (!more) {
            ++row[2];
            equal.push_back(all[i].what);
            QVERIFY2(!against, all[i].what.c_str()); // no claim can break where nothing new is granted
            continue;
        }
        ++row[0];
        row[1] += against ? 1 : 0;
        if (!against) {
            unclaimed.push_back(all[i].what);
        }
    }
    std::array<int, 3> sum{};
    for (const auto& [kind, row] : table) {
        qInfo("%-10s weaker %d, claims name %d, equal %d", kind.c_str(), row[0], row[1], row[2]);
        for (std::size_t i = 0; i < 3; ++i) {
            sum.at(i) += row.at(i);
        }
    }
    qInfo("%zu mutants, every %zu: %d refused at loading, %d weaker, %d named by the claims alone, %d equal", all.size(), every, refused, sum[0],
        sum[1], sum[2]);
    for (const std::string& one : equal) {
        qInfo("equal: %s", one.c_str());
    }
    for (const std::string& one : unclaimed) {
        qInfo("not claimed: %s", one.c_str());
    }
    QVERIFY(sum[0] > 10);
    QVERIFY(sum[1] * 100 >= sum[0] * 95);
}

BRIMFUL_SUITE(ProofTest);
#include "proof_test.moc"
