// Three truths: the strong tables of S. C. Kleene, Introduction to Metamathematics (1952), section 64, written out,
// and how long a verdict holds.
#include "core/rules/standing.h"

#include "tests/core/rules/evidence_of.h"
#include "tests/support/suite.h"

#include <QTest>

#include <array>

using namespace brimful;
using namespace brimful::rules;
using brimful::test::stepHeld;

namespace {

constexpr Truth F = Truth::False;
constexpr Truth U = Truth::Unknown;
constexpr Truth T = Truth::True;

Condition node(Op op, std::uint16_t size, std::int64_t k = 0)
{
    Condition out;
    out.op = op;
    out.size = size;
    out.low = k;
    return out;
}

Condition passed(std::uint16_t step)
{
    Condition out;
    out.op = Op::Passed;
    out.a = step;
    return out;
}

Evidence stepsWith(std::initializer_list<std::pair<Truth, std::int64_t>> steps)
{
    Evidence evidence;
    evidence.now_ms = 0;
    for (const auto& [truth, lapses] : steps) {
        StepHeld held = stepHeld(truth, lapses);
        held.lack = truth == U ? Lack::Missing : Lack::None;
        evidence.steps.push_back(held);
    }
    return evidence;
}

Truth ofTwo(Op op, Truth a, Truth b, std::int64_t k = 0)
{
    const std::array tree{node(op, 3, k), passed(0), passed(1)};
    return judge(tree, stepsWith({{a, kNever}, {b, kNever}}), {}).truth;
}

} // namespace

class JudgeTest : public QObject {
    Q_OBJECT
private slots:
    void tables_data();
    void tables();
    void notSwaps();
    void kOfThree();
    void nestedTreesAreWalkedWhole();
    void untilOfAll();
    void untilOfAny();
    void untilOfKOf();
    void untilUnderNot();
    void unknownEndsNever();
    void lapsedEvidenceDoesNotCount();
};

void JudgeTest::tables_data()
{
    QTest::addColumn<int>("a");
    QTest::addColumn<int>("b");
    QTest::addColumn<int>("both");
    QTest::addColumn<int>("either");
    const auto row = [](const char* name, Truth a, Truth b, Truth both, Truth either) {
        QTest::newRow(name) << static_cast<int>(a) << static_cast<int>(b) << static_cast<int>(both) << static_cast<int>(either);
    };
    row("t t", T, T, T, T);
    row("t u", T, U, U, T);
    row("t f", T, F, F, T);
    row("u t", U, T, U, T);
    row("u u", U, U, U, U);
    row("u f", U, F, F, U);
    row("f t", F, T, F, T);
    row("f u", F, U, F, U);
    row("f f", F, F, F, F);
}

void JudgeTest::tables()
{
    QFETCH(int, a);
    QFETCH(int, b);
    QFETCH(int, both);
    QFETCH(int, either);
    const auto first = static_cast<Truth>(a);
    const auto second = static_cast<Truth>(b);
    QCOMPARE(static_cast<int>(ofTwo(Op::All, first, second)), both);
    QCOMPARE(static_cast<int>(ofTwo(Op::Any, first, second)), either);
    QCOMPARE(static_cast<int>(ofTwo(Op::KOf, first, second, 2)), both);
    QCOMPARE(static_cast<int>(ofTwo(Op::KOf, first, second, 1)), either);
}

void JudgeTest::notSwaps()
{
    const std::array tree{node(Op::Not, 2), passed(0)};
    QCOMPARE(judge(tree, stepsWith({{T, kNever}}), {}).truth, F);
    QCOMPARE(judge(tree, stepsWith({{U, kNever}}), {}).truth, U);
    QCOMPARE(judge(tree, stepsWith({{F, kNever}}), {}).truth, T);
}

// Two of three: worth its majority when every unknown may still turn out either way.
void JudgeTest::kOfThree()
{
    const std::array all{F, U, T};
    for (const Truth a : all) {
        for (const Truth b : all) {
            for (const Truth c : all) {
                const std::array tree{node(Op::KOf, 4, 2), passed(0), passed(1), passed(2)};
                const Truth got = judge(tree, stepsWith({{a, kNever}, {b, kNever}, {c, kNever}}), {}).truth;
                bool can_be_true = false;
                bool can_be_false = false;
                for (int bits = 0; bits < 8; ++bits) { // every way in which the unknown ones may turn out
                    int count = 0;
                    bool fits = true;
                    int at = 0;
                    for (const Truth one : {a, b, c}) {
                        const bool yes = ((bits >> at++) & 1) != 0;
                        fits = fits && (one == U || (one == T) == yes);
                        count += yes ? 1 : 0;
                    }
                    can_be_true = can_be_true || (fits && count >= 2);
                    can_be_false = can_be_false || (fits && count < 2);
                }
                QCOMPARE(got, !can_be_true ? F : !can_be_false ? T : U);
            }
        }
    }
}

void JudgeTest::nestedTreesAreWalkedWhole()
{
    // all( any( 0, all(1, 2) ), not( k_of 1 (3, 4) ) )
    const std::array tree{node(Op::All, 10), node(Op::Any, 5), passed(0), node(Op::All, 3), passed(1), passed(2), node(Op::Not, 4),
        node(Op::KOf, 3, 1), passed(3), passed(4)};
    const auto with = [&](Truth zero, Truth one, Truth two, Truth three, Truth four) {
        return judge(tree, stepsWith({{zero, kNever}, {one, kNever}, {two, kNever}, {three, kNever}, {four, kNever}}), {}).truth;
    };
    QCOMPARE(with(T, F, F, F, F), T);
    QCOMPARE(with(F, T, T, F, F), T);
    QCOMPARE(with(F, T, U, F, F), U);
    QCOMPARE(with(F, T, F, F, F), F);
    QCOMPARE(with(T, T, T, F, T), F);
    QCOMPARE(with(T, T, T, U, F), U);
    QCOMPARE(with(U, U, U, T, U), F);
}

void JudgeTest::untilOfAll()
{
    const std::array tree{node(Op::All, 4), passed(0), passed(1), passed(2)};
    QCOMPARE(judge(tree, stepsWith({{T, 30}, {T, 10}, {T, kNever}}), {}), (Judged{T, 10}));
    // False until the last False one can no longer be told
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {T, 10}, {F, 20}}), {}), (Judged{F, 30}));
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {U, 10}, {F, 20}}), {}), (Judged{F, 30}));
}

void JudgeTest::untilOfAny()
{
    const std::array tree{node(Op::Any, 4), passed(0), passed(1), passed(2)};
    QCOMPARE(judge(tree, stepsWith({{T, 30}, {T, 10}, {F, 5}}), {}), (Judged{T, 30}));
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {F, 10}, {F, kNever}}), {}), (Judged{F, 10}));
}

void JudgeTest::untilOfKOf()
{
    const std::array tree{node(Op::KOf, 5, 2), passed(0), passed(1), passed(2), passed(3)};
    // two of 40, 30, 10: from 30 on only one is left
    QCOMPARE(judge(tree, stepsWith({{T, 30}, {T, 10}, {T, 40}, {F, 1}}), {}), (Judged{T, 30}));
    // fewer than two can be true while three are False: the earliest of exactly three
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {F, 10}, {F, 40}, {T, 5}}), {}), (Judged{F, 10}));
    // four are False: one may be lost
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {F, 10}, {F, 40}, {F, 5}}), {}), (Judged{F, 10}));
}

void JudgeTest::untilUnderNot()
{
    const std::array tree{node(Op::Not, 4), node(Op::Any, 3), passed(0), passed(1)};
    QCOMPARE(judge(tree, stepsWith({{F, 30}, {F, 10}}), {}), (Judged{T, 10}));
    QCOMPARE(judge(tree, stepsWith({{T, 30}, {F, 10}}), {}), (Judged{F, 30}));
}

void JudgeTest::unknownEndsNever()
{
    const std::array tree{node(Op::All, 3), passed(0), passed(1)};
    QCOMPARE(judge(tree, stepsWith({{U, 30}, {T, 10}}), {}), (Judged{U, kNever}));
}

void JudgeTest::lapsedEvidenceDoesNotCount()
{
    const std::array tree{passed(0)};
    Evidence evidence = stepsWith({{T, 10}});
    evidence.now_ms = 9;
    QCOMPARE(judge(tree, evidence, {}).truth, T);
    evidence.now_ms = 10;
    QCOMPARE(judge(tree, evidence, {}).truth, U);
}

BRIMFUL_SUITE(JudgeTest);
#include "judge_test.moc"
