// The solver's histories are no paper: what it says can be granted is granted by the real use cases, and what only a weakened
// pack would grant is refused by them.
#include "core/rules/proof.h"
#include "core/yard/play.h"
#include "tests/core/rules/mutants.h"
#include "tests/core/rules/packs.h"
#include "tests/core/yard/played_yard.h"
#include "tests/support/suite.h"

#include <QTest>

#include <algorithm>

using namespace brimful;

namespace {

tl::expected<yard::Played, report::Refusal> played(const canon::Json& scenario)
{
    const QTemporaryDir folder;
    return yard::play(scenario, (folder.path() + QStringLiteral("/yard")).toStdString());
}

bool shows(const test::Mutant& mutant)
{
    const std::string file = mutant.what.substr(0, mutant.what.find(' '));
    const auto text = mutant.source.files.find(file);
    const bool computes = text != mutant.source.files.end() && text->second.find("\"derived\"") != std::string::npos;
    // A list without a row leaves its columns out; for the solver that is a column left out of a row.
    const bool of_no_row = mutant.what == "steps/040-hollow-places.json kind may be left out";
    return mutant.kind != "talk" && !computes && !of_no_row && !(mutant.kind == "role" && file.starts_with("hold-points/"));
}

} // namespace

class ProofPlayTest : public QObject {
    Q_OBJECT
private slots:
    void theShortestHistoriesAreGranted()
    {
        const rules::Pack pack = test::loaded(test::shipped("base"));
        const rules::Proof proof = rules::prove(pack, {}, {}, {false, true, false, true});
        QCOMPARE(proof.shortest.size(), pack.hold_points.size());
        for (const rules::Shortest& one : proof.shortest) {
            const auto told = played(one.history);
            QVERIFY2(told, one.hold_point.c_str());
            for (const yard::Unmet& unmet : told->unmet) {
                qWarning(
                    "%s: act %zu: expected %s; found %s", one.hold_point.c_str(), unmet.act, unmet.expected.c_str(), unmet.found.c_str());
            }
            QVERIFY2(told->unmet.empty(), one.hold_point.c_str());
            qInfo("%s: %zu records at least", one.hold_point.c_str(), one.steps.size());
        }
    }

    // Every PLAY_STEPth mutant (default 160th); only what is granted at giving can be played to a refusal. A history cannot say what
    // a figure is to come out at, answers every question of the talk, and lets people sign as whatever they are: what weakens these
    // need not show in it.
    void whatOnlyAWeakenedPackGrantsIsRefused()
    {
        const rules::PackSource& source = test::shipped("base");
        const rules::Pack base = test::loaded(source);
        const std::vector<test::Mutant> all = test::weakened(source);
        const int asked = qEnvironmentVariableIntValue("PLAY_STEP");
        const std::size_t every = asked > 0 ? static_cast<std::size_t>(asked) : 160;
        int refused = 0;
        int given = 0;
        for (std::size_t i = 11; i < all.size(); i += every) {
            const auto mutant = rules::load(all[i].source, {});
            if (!mutant || !shows(all[i])) {
                continue;
            }
            for (const rules::Finding& found : rules::newlyGranted(*mutant, base, true)) {
                if (!found.at_giving) {
                    continue;
                }
                const auto told = played(found.history);
                QVERIFY2(told, all[i].what.c_str());
                const auto last = std::ranges::find_if(told->lines.rbegin(), told->lines.rend(),
                    [&](const yard::PlayedLine& line) { return line.act == "release" && line.what == found.hold_point; });
                QVERIFY2(last != told->lines.rend(), all[i].what.c_str());
                ++(last->outcome == "done" ? given : refused);
                if (last->outcome == "done") {
                    qWarning("given by the base pack: %s, %s", all[i].what.c_str(), found.hold_point.c_str());
                }
            }
        }
        qInfo("%d histories refused, %d given", refused, given);
        QVERIFY(refused > 0);
        QCOMPARE(given, 0);
    }

    void aProvenPackIsAdopted()
    {
        test::Crew crew;
        yard::Yard yard = crew.open();
        const auto adopted = yard.adoptPack({}, crew.ada, crew.tam);
        QVERIFY(adopted);
    }
};

BRIMFUL_SUITE(ProofPlayTest);
#include "proof_play_test.moc"
