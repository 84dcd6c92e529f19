// A sheet on a real yard: answers become a record only by a PIN; nothing is kept of a PIN or of a hold point's answers.
#include "app/tablet/plans.h"
#include "tests/app/tablet/demo_yard.h"
#include "tests/support/suite.h"

#include <QMetaProperty>
#include <QRegularExpression>
#include <QTest>

using namespace brimful;
using tablet::Plan;
using tablet::Session;
using tablet::Sheet;

class SheetTest : public QObject {
    Q_OBJECT

private slots:
    void aFaultyPinWritesNothing();
    void onePersonSignsAnAdmission();
    void aHalfFilledSheetIsKeptAndNotSigned();
    void twoPeopleSignAndTheFirstIsNotAskedAgain();
    void aHoldPointKeepsNothing();
    void aWrongAnswerGoesNoFurther();
    void twoPeopleReleaseOnTheGlass();
    void theSecondPersonOfAStepGivesAValue_data();
    void theSecondPersonOfAStepGivesAValue();
    void aFirstSignatureWaitsForItsSecond();
    void whatWaitsIsShownWhole_data();
    void whatWaitsIsShownWhole();
    void aRoundIsPressedPlaceByPlace();
    void whoSignedLatelyShows();
    void aBadgePicksWhoSigns();
    void noPropertyShowsThePin();

private:
    static void typePin(Sheet& sheet, const QString& pin)
    {
        for (const QChar digit : pin) {
            sheet.pinPress(QString(digit));
        }
    }
    static void fillAdmission(Sheet& sheet)
    {
        sheet.setWritten(QStringLiteral("T-77"));
        sheet.take();
        for (const char* length : {"30", "1/4", "92"}) {
            for (const char* key = length; *key != '\0'; ++key) {
                sheet.pad()->press(QString(QLatin1Char(*key)));
            }
            sheet.take();
        }
        sheet.choose(QStringLiteral("hemispherical"));
        sheet.take();
        sheet.take(); // the note may be left out
    }
    struct Yard {
        test::DemoYard demo;
        Session session{demo.folder()};
        Yard() { opened = session.open().has_value(); }
        bool opened{};
    };
};

void SheetTest::aFaultyPinWritesNothing()
{
    Yard yard;
    QVERIFY(yard.opened);
    Sheet sheet;
    sheet.open(tablet::admitPlan(yard.session), &yard.session.yard(), {}, yard.session.reading);
    fillAdmission(sheet);
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    const auto before = yard.session.yard().vessels();
    sheet.pickPerson(QStringLiteral("Bea"));
    typePin(sheet, QStringLiteral("111112"));
    sheet.take();
    QVERIFY(!sheet.message().isEmpty());
    QCOMPARE(sheet.dots(), 0);
    QCOMPARE(yard.session.yard().vessels(), before);
}

void SheetTest::onePersonSignsAnAdmission()
{
    Yard yard;
    QVERIFY(yard.opened);
    Sheet sheet;
    bool written = false;
    Plan plan = tablet::admitPlan(yard.session);
    plan.closed = [&](bool entry) { written = entry; };
    sheet.open(std::move(plan), &yard.session.yard(), {}, yard.session.reading);
    fillAdmission(sheet);
    sheet.pickPerson(QStringLiteral("Bea"));
    typePin(sheet, test::DemoYard::pin(QStringLiteral("Bea")));
    QCOMPARE(sheet.dots(), 6);
    sheet.take();
    QVERIFY2(written, qPrintable(sheet.message()));
    const auto view = yard.session.yard().vessel("T-77");
    QVERIFY(view.has_value());
    QVERIFY(std::abs(view->shell.outside_diameter_m - 0.762) < 1e-6);
    QCOMPARE(view->shell.sight, report::Sight::Believed); // nobody measured yet
}

void SheetTest::aHalfFilledSheetIsKeptAndNotSigned()
{
    Yard yard;
    QVERIFY(yard.opened);
    Sheet sheet;
    sheet.open(tablet::admitPlan(yard.session), &yard.session.yard(), {}, yard.session.reading);
    sheet.setWritten(QStringLiteral("T-78"));
    sheet.take();
    sheet.pad()->press(QStringLiteral("3"));
    sheet.pad()->press(QStringLiteral("0"));
    sheet.take();
    sheet.back();
    QVERIFY(yard.session.yard().device()->draft("admit").has_value());
    Sheet again;
    again.open(tablet::admitPlan(yard.session), &yard.session.yard(), {}, yard.session.reading);
    QVERIFY(again.draftNote().contains(QLatin1String("does not count")));
    QCOMPARE(again.hand(), Sheet::Kind::Number); // the last value is typed again, not confirmed
    QVERIFY(again.pad()->empty());
    QCOMPARE(again.answered()->count(), 1);
}

void SheetTest::twoPeopleSignAndTheFirstIsNotAskedAgain()
{
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    QVERIFY(open.event("NQ-08", "stop", {}).has_value());
    const auto before = open.trail("NQ-08");
    const rules::Index stop = yard.session.pack().stop("stopped");
    Sheet sheet;
    sheet.open(tablet::clearPlan(yard.session, "NQ-08", stop), &open, {}, yard.session.reading);
    sheet.setWritten(QStringLiteral("Nothing; a sleeve on the glass"));
    sheet.take();
    sheet.setWritten(QStringLiteral("Looked all round, two of us"));
    sheet.take();
    sheet.pickPerson(QStringLiteral("Rosa"));
    typePin(sheet, test::DemoYard::pin(QStringLiteral("Rosa")));
    sheet.take();
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    QCOMPARE(sheet.hand(), Sheet::Kind::People); // the tablet is handed over
    for (const tablet::Row& row : sheet.people()->rows()) {
        QVERIFY(row.key != QLatin1String("Rosa"));
    }
    QCOMPARE(open.trail("NQ-08")->size(), before->size() + 1);
    QVERIFY(open.folded("NQ-08")->evidence.stops[stop].raised != rules::kNoEntry);
    sheet.pickPerson(QStringLiteral("Bea"));
    typePin(sheet, test::DemoYard::pin(QStringLiteral("Bea")));
    sheet.take();
    QCOMPARE(open.folded("NQ-08")->evidence.stops[stop].raised, rules::kNoEntry); // only now it is answered
    const auto after = open.trail("NQ-08");
    QCOMPARE(after->size(), before->size() + 2);
    QCOMPARE(after->back().kind, ledger::Kind::Confirmed);
    QCOMPARE(after->back().person, std::string("Bea"));
}

void SheetTest::aHoldPointKeepsNothing()
{
    Yard yard;
    QVERIFY(yard.opened);
    const rules::Index gate = yard.session.pack().holdPoint("accept");
    Plan plan = tablet::holdPointPlan(yard.session, yard.session.yard().vessels().front(), gate);
    QVERIFY(plan.gate);
    QVERIFY(plan.draft.empty());
    QVERIFY(plan.two);
}

void SheetTest::aWrongAnswerGoesNoFurther()
{
    Yard yard;
    QVERIFY(yard.opened);
    // NQ-08's serial is PX-204118: its scenario file says so.
    const rules::Index gate = yard.session.pack().holdPoint("accept");
    Sheet sheet;
    sheet.open(tablet::holdPointPlan(yard.session, "NQ-08", gate), &yard.session.yard(), {}, yard.session.reading);
    const QString asked = sheet.askText();
    QVERIFY(asked.contains(QLatin1String("serial")));
    sheet.setWritten(QStringLiteral("9999"));
    sheet.take();
    QCOMPARE(sheet.askText(), asked);
    QVERIFY(sheet.message().contains(QLatin1String("Not what the record says")));
    QVERIFY(!sheet.message().contains(QLatin1String("4118")));
    sheet.setWritten(QStringLiteral("4118"));
    sheet.take();
    QVERIFY(sheet.askText() != asked);
}

// The main act as hands do it: five places read with the meter, the newest tag, seven answers, two PINs.
void SheetTest::twoPeopleReleaseOnTheGlass()
{
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    const rules::Pack& pack = yard.session.pack();
    const auto sign = [](Sheet& sheet, const char* person) {
        sheet.pickPerson(QLatin1String(person));
        typePin(sheet, test::DemoYard::pin(QLatin1String(person)));
        sheet.take();
    };
    Sheet readings;
    readings.open(tablet::stepPlan(yard.session, "NQ-02", pack.step("readings-wet")), &open, {}, yard.session.reading);
    readings.choose(QStringLiteral("M-1"));
    readings.take();
    int typed = 0;
    for (int turn = 0; readings.hand() != Sheet::Kind::People && turn < 40; ++turn) {
        if (readings.hand() == Sheet::Kind::Number) {
            for (const QChar key : readings.pad()->unitWord() == QLatin1String("%") ? QStringLiteral("20.9") : QStringLiteral("0")) {
                readings.pad()->press(QString(key));
            }
            ++typed;
        }
        readings.take(); // a reason for low oxygen may be left out
    }
    QCOMPARE(typed, 12); // gas and oxygen in clean air, then at five places
    sign(readings, "Rosa");
    QVERIFY2(readings.message().isEmpty(), qPrintable(readings.message()));
    QCOMPARE(open.vessel("NQ-02")->standing.state, rules::State::Ready); // proven, and still not released

    const auto tag = open.printTag("NQ-02", "A6", 0, true);
    QVERIFY(tag.has_value());
    Plan plan = tablet::holdPointPlan(yard.session, "NQ-02", pack.holdPoint("first-cut"));
    std::vector<std::string> keys;
    for (const tablet::Ask& ask : plan.asks) {
        keys.push_back(ask.tag ? "tag" : ask.fields.front().key);
    }
    const std::map<std::string, QString> answers{{"tag", QString::fromStdString(tag->code)}, {"serial", "4471"}, {"lip", "runs-over"},
        {"vent", "N3"}, {"highest", "0"}, {"tool", "battery"}, {"first-hole", "highest-of-cut"}, {"unhappy", "nobody: Bea, Odd"}};
    Sheet sheet;
    sheet.open(std::move(plan), &open, {}, yard.session.reading);
    QCOMPARE(keys.front(), std::string("tag"));
    sheet.setWritten(QStringLiteral("AAAA-AAAA-A"));
    sheet.take();
    QVERIFY(sheet.message().contains(QLatin1String("Not the newest tag of this vessel")));
    for (const std::string& key : keys) {
        const auto answer = answers.find(key);
        QVERIFY2(answer != answers.end(), key.c_str());
        if (sheet.hand() == Sheet::Kind::Choice) {
            sheet.choose(answer->second);
        } else if (sheet.hand() == Sheet::Kind::Number) {
            sheet.pad()->press(answer->second);
        } else {
            sheet.setWritten(answer->second);
        }
        sheet.take();
        QVERIFY2(sheet.message().isEmpty(), qPrintable(QString::fromStdString(key) + ": " + sheet.message()));
    }
    sign(sheet, "Ada");
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    QCOMPARE(open.vessel("NQ-02")->standing.state, rules::State::Ready); // one signature releases nothing
    // The second one is not shown what the first one said, and gives a value too.
    QCOMPARE(sheet.hand(), Sheet::Kind::Number);
    QVERIFY(sheet.kicker().contains(QLatin1String("Second person")));
    const auto said = sheet.answered()->rows();
    QVERIFY(std::ranges::none_of(said, [&](const tablet::Row& row) { return row.title == sheet.askText(); }));
    QCOMPARE(said.size(), keys.size() - 2); // the tag is no question
    sheet.pad()->press(QStringLiteral("9"));
    sheet.take();
    QVERIFY(sheet.message().contains(QLatin1String("Not what the record says")));
    QCOMPARE(sheet.hand(), Sheet::Kind::Number);
    sheet.pad()->press(QStringLiteral("0"));
    sheet.take();
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    for (const tablet::Row& row : sheet.people()->rows()) {
        QVERIFY(row.key != QLatin1String("Ada") && row.key != QLatin1String("Rosa")); // not twice, and not who read the meter
    }
    sign(sheet, "Tam");
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    const auto released = open.vessel("NQ-02");
    QCOMPARE(released->standing.state, rules::State::Released);
    QVERIFY(released->standing.until_ms != rules::kNever);
}

void SheetTest::theSecondPersonOfAStepGivesAValue_data()
{
    QTest::addColumn<QString>("step");
    QTest::addColumn<QString>("by");
    QTest::addColumn<QString>("with");
    QTest::addColumn<QString>("asked"); // fact, and row of a register
    QTest::newRow("a number") << "pose"
                              << "Bea"
                              << "Rosa"
                              << "pose.roll";
    QTest::newRow("a choice") << "what-it-was"
                              << "Ada"
                              << "Bea"
                              << "what-it-was.substance";
    QTest::newRow("a row that was named") << "openings"
                                          << "Bea"
                                          << "Rosa"
                                          << "openings.register.projection of N9";
    QTest::newRow("a place of the round") << "inert-purge"
                                          << "Rosa"
                                          << "Bea"
                                          << "inert-purge.set.fuel of high";
}

// After the first signature the other one is asked what the first one wrote, sees neither it nor a limit, and signs only with the same.
void SheetTest::theSecondPersonOfAStepGivesAValue()
{
    QFETCH(const QString, step);
    QFETCH(const QString, by);
    QFETCH(const QString, with);
    QFETCH(const QString, asked);
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    const rules::Pack& pack = yard.session.pack();
    const auto sign = [](Sheet& sheet, const QString& person) {
        sheet.pickPerson(person);
        typePin(sheet, test::DemoYard::pin(person));
        sheet.take();
    };
    Sheet sheet;
    sheet.open(tablet::stepPlan(yard.session, "NQ-08", pack.step(step.toStdString())), &open, {}, yard.session.reading);
    std::map<QString, QString> chosen; // by what was asked
    bool named = false;
    for (int turn = 0; sheet.hand() != Sheet::Kind::People && turn < 60; ++turn) {
        if (sheet.hand() == Sheet::Kind::Choice) {
            chosen[sheet.askText()] = sheet.options()->rows().front().key;
            sheet.choose(sheet.options()->rows().front().key);
        } else if (sheet.hand() == Sheet::Kind::Number) {
            sheet.pad()->press(QStringLiteral("1"));
        } else if (sheet.hand() == Sheet::Kind::Write && !named) {
            sheet.setWritten(QStringLiteral("N9"));
            named = true;
        }
        sheet.take();
        QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.askText() + u' ' + sheet.message()));
    }
    sign(sheet, by);
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    const auto before = open.trail("NQ-08")->size();
    QVERIFY(sheet.kicker().contains(QLatin1String("Second person")));
    QCOMPARE(sheet.cannotLabel(), QStringLiteral("Stop here"));
    QVERIFY(sheet.need().isEmpty());
    QVERIFY(!sheet.stepBack());
    const rules::Index fact = pack.fact(asked.section(u' ', 0, 0).toStdString());
    QVERIFY2(sheet.askText().endsWith(text::factAsk(pack, fact)), qPrintable(sheet.askText()));
    for (const tablet::Row& row : sheet.answered()->rows()) {
        QVERIFY2(row.title != sheet.askText(), qPrintable(row.title + u' ' + row.line));
    }
    QCOMPARE(sheet.places()->count(), 0); // nor what was read at the places
    const auto give = [&](bool right) {
        if (sheet.hand() == Sheet::Kind::Choice) {
            const QString first = chosen[sheet.askText()];
            const std::vector<tablet::Row> options = sheet.options()->rows();
            for (const tablet::Row& row : options) {
                if (right == (row.key == first)) {
                    sheet.choose(row.key);
                }
            }
        } else {
            sheet.pad()->press(right ? QStringLiteral("1") : QStringLiteral("3"));
            QVERIFY2(sheet.takeLabel().startsWith(QLatin1String("Say 3")) || right, qPrintable(sheet.takeLabel()));
        }
        sheet.take();
    };
    give(false);
    QCOMPARE(sheet.message(), QStringLiteral("Not what the record says. Go and look."));
    give(false);
    QVERIFY2(sheet.message().startsWith(QLatin1String("Again not what the record says.")), qPrintable(sheet.message()));
    QCOMPARE(open.trail("NQ-08")->size(), before);
    QVERIFY(sheet.hand() != Sheet::Kind::People);
    give(true);
    QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    sign(sheet, with);
    const report::TrailLine line = open.trail("NQ-08")->back();
    QCOMPARE(line.kind, ledger::Kind::Confirmed);
    QCOMPARE(QString::fromStdString(line.answered), asked.section(u' ', 0, 0));
    QCOMPARE(QString::fromStdString(line.answered_row), asked.section(u' ', 2));
}

// Closed between the two signatures: who opens the step again goes on with the second, or begins anew.
void SheetTest::aFirstSignatureWaitsForItsSecond()
{
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    const rules::Pack& pack = yard.session.pack();
    const auto opened = [&](Sheet& sheet) {
        sheet.open(tablet::stepPlan(yard.session, "NQ-08", pack.step("pose")), &open, {}, yard.session.reading);
    };
    const auto sign = [](Sheet& sheet, const QString& person) {
        sheet.pickPerson(person);
        typePin(sheet, test::DemoYard::pin(person));
        sheet.take();
    };
    const auto signFirst = [&](Sheet& sheet) {
        for (int turn = 0; sheet.hand() != Sheet::Kind::People && turn < 20; ++turn) {
            if (sheet.hand() == Sheet::Kind::Choice) {
                sheet.choose(sheet.options()->rows().front().key);
            } else if (sheet.hand() == Sheet::Kind::Number) {
                sheet.pad()->press(QStringLiteral("1"));
            } else {
                sheet.setWritten(QStringLiteral("N3"));
            }
            sheet.take();
        }
        sign(sheet, QStringLiteral("Bea"));
        QVERIFY2(sheet.message().isEmpty(), qPrintable(sheet.message()));
        sheet.close();
    };
    Sheet first;
    opened(first);
    const QString asked_first = first.askText();
    signFirst(first);

    Sheet anew;
    opened(anew);
    QCOMPARE(anew.message(), QStringLiteral("Bea signed. A second signature is missing."));
    QVERIFY2(anew.askText().endsWith(text::factAsk(pack, pack.fact("pose.roll"))), qPrintable(anew.askText()));
    QStringList shown;
    for (const tablet::Row& row : anew.answered()->rows()) {
        shown.append(row.title);
    }
    QVERIFY(shown.contains(text::factAsk(pack, pack.fact("pose.pitch"))));
    QVERIFY(!shown.contains(text::factAsk(pack, pack.fact("pose.roll")))); // he looks himself
    QCOMPARE(anew.cannotLabel(), QStringLiteral("Start again"));
    anew.refuse();
    QVERIFY2(!anew.kicker().contains(QLatin1String("Second person")), qPrintable(anew.kicker())); // where its draft stands
    QVERIFY(anew.cannotLabel() != QLatin1String("Start again"));
    anew.close();

    Sheet second;
    opened(second);
    second.pad()->press(QStringLiteral("1"));
    second.take();
    QVERIFY2(second.message().isEmpty(), qPrintable(second.message()));
    for (const tablet::Row& row : second.people()->rows()) {
        QVERIFY(row.key != QLatin1String("Bea"));
    }
    sign(second, QStringLiteral("Rosa"));
    const report::TrailLine line = open.trail("NQ-08")->back();
    QCOMPARE(line.kind, ledger::Kind::Confirmed);
    QCOMPARE(QString::fromStdString(line.answered), QStringLiteral("pose.roll"));
    Sheet after;
    opened(after); // nothing waits any more
    QCOMPARE(after.askText(), asked_first);
}

void SheetTest::whatWaitsIsShownWhole_data()
{
    QTest::addColumn<QString>("step");
    QTest::addColumn<QString>("by");
    QTest::newRow("a person who is named") << "ready-to-cut"
                                           << "Tam";
    QTest::newRow("a photograph or none") << "what-it-was"
                                          << "Ada";
    QTest::newRow("rows that were named") << "openings"
                                          << "Bea";
    QTest::newRow("places of a round") << "inert-purge"
                                       << "Rosa";
}

// Who signs second on a sheet that was closed between sees the same words as on one that was not.
void SheetTest::whatWaitsIsShownWhole()
{
    QFETCH(const QString, step);
    QFETCH(const QString, by);
    Yard yard;
    QVERIFY(yard.opened);
    const auto shown = [](Sheet& sheet) {
        QStringList out;
        for (const tablet::Row& row : sheet.answered()->rows()) {
            if (row.line != QLatin1String("end of the list")) { // said to the glass, no word of the record
                out.append(row.title);
            }
        }
        return out;
    };
    const auto plan = [&] { return tablet::stepPlan(yard.session, "NQ-08", yard.session.pack().step(step.toStdString())); };
    Sheet first;
    first.open(plan(), &yard.session.yard(), {}, yard.session.reading);
    bool named = false;
    for (int turn = 0; first.hand() != Sheet::Kind::People && turn < 60; ++turn) {
        if (first.hand() == Sheet::Kind::Choice) {
            first.choose(first.options()->rows().front().key);
        } else if (first.hand() == Sheet::Kind::Number) {
            first.pad()->press(QStringLiteral("1"));
        } else if (first.hand() == Sheet::Kind::Write && !named) {
            first.setWritten(QStringLiteral("N9"));
            named = true;
        }
        first.take();
        QVERIFY2(first.message().isEmpty(), qPrintable(first.askText() + u' ' + first.message()));
    }
    first.pickPerson(by);
    typePin(first, test::DemoYard::pin(by));
    first.take();
    QVERIFY2(first.message().isEmpty(), qPrintable(first.message()));
    QStringList at_once = shown(first);
    first.close();
    Sheet later;
    later.open(plan(), &yard.session.yard(), {}, yard.session.reading);
    QVERIFY2(later.message().contains(by + QStringLiteral(" signed.")), qPrintable(later.message()));
    QCOMPARE(later.askText(), first.askText());
    // The meter stands beside the facts.
    at_once.removeAll(QStringLiteral("Which meter?"));
    QVERIFY(!shown(later).isEmpty());
    QCOMPARE(shown(later), at_once);
    static const QRegularExpression identifier(QStringLiteral("[0-9a-f]{16}"));
    for (const tablet::Row& row : later.answered()->rows()) {
        QVERIFY2(!row.line.isEmpty() && !identifier.match(row.line).hasMatch(), qPrintable(row.title + u' ' + row.line));
    }
}

void SheetTest::aRoundIsPressedPlaceByPlace()
{
    constexpr int kBetweenPlacesMs = 450; // a hand that moves on; sooner it has bounced
    Yard yard;
    QVERIFY(yard.opened);
    Sheet sheet;
    sheet.open(tablet::stepPlan(yard.session, "NQ-08", yard.session.pack().step("sweep")), &yard.session.yard(), {}, yard.session.reading);
    QCOMPARE(sheet.places()->count(), 5);
    const auto taken = [&] {
        QString out;
        for (const tablet::Row& place : sheet.places()->rows()) {
            out.append(place.solid ? u'x' : place.chosen ? u'?' : u'-');
        }
        return out;
    };
    QCOMPARE(taken(), QStringLiteral("?----"));
    sheet.choose(QStringLiteral("cool"));
    QCOMPARE(taken(), QStringLiteral("x?---"));
    sheet.choose(QStringLiteral("cool")); // the finger bounced
    QCOMPARE(taken(), QStringLiteral("x?---"));
    QTest::qWait(kBetweenPlacesMs);
    sheet.choose(QStringLiteral("warm"));
    QCOMPARE(taken(), QStringLiteral("xx?--"));
    QVERIFY(sheet.stepBack()); // the wrong key
    QTest::qWait(kBetweenPlacesMs);
    sheet.choose(QStringLiteral("cool"));
    QCOMPARE(taken(), QStringLiteral("xx?--"));
    for (const char* word : {"smoke", "cool", "cool"}) {
        QCOMPARE(sheet.hand(), Sheet::Kind::Choice);
        QTest::qWait(kBetweenPlacesMs);
        sheet.choose(QLatin1String(word));
    }
    QCOMPARE(sheet.hand(), Sheet::Kind::People); // all five stand in what is signed
    QStringList signed_for;
    for (const tablet::Row& answer : sheet.answered()->rows()) {
        signed_for.append(answer.line);
    }
    QCOMPARE(signed_for.join(u'|'),
        QStringLiteral("Cool, nothing seen|Cool, nothing seen|Smoke or smell|Cool, nothing seen|Cool, nothing seen"));
}

// Whoever picks a name sees when that person last signed.
void SheetTest::whoSignedLatelyShows()
{
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    QVERIFY(
        open.event("NQ-08", "paused", {}, yard::Signing{"Bea", test::DemoYard::pin(QStringLiteral("Bea")).toStdString(), {}}).has_value());
    Sheet sheet;
    sheet.open(tablet::clockPlan(yard.session), &open, {}, yard.session.reading);
    if (sheet.hand() == Sheet::Kind::Choice) {
        sheet.choose(QStringLiteral("right"));
        sheet.take();
    }
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    // Newest first, and before the name is picked as well as after.
    const QRegularExpression lately(QStringLiteral("Signed lately: Bea \\d+ s, .* ago\\.$"));
    QVERIFY2(lately.match(sheet.why()).hasMatch(), qPrintable(sheet.why()));
    sheet.pickPerson(QStringLiteral("Ada"));
    QVERIFY(lately.match(sheet.why()).hasMatch());
}

// A badge picks the name, and only of somebody who may sign this; the PIN is asked all the same.
void SheetTest::aBadgePicksWhoSigns()
{
    Yard yard;
    QVERIFY(yard.opened);
    yard::Yard& open = yard.session.yard();
    QVERIFY(open.giveBadge("Ada", "B-0001").has_value());
    QVERIFY(open.giveBadge("Odd", "B-0002").has_value());
    QCOMPARE(open.giveBadge("Bea", "B-0001").error().why, report::Why::NameTaken);
    QCOMPARE(open.giveBadge("Nobody", "B-0003").error().why, report::Why::UnknownPerson);
    QCOMPARE(open.personOfBadge("B-0001"), std::string("Ada"));
    QCOMPARE(open.personOfBadge("B-0003"), std::string());
    QCOMPARE(open.personOfBadge(""), std::string());
    Sheet sheet;
    sheet.open(tablet::instrumentPlan(yard.session), &open, {}, yard.session.reading);
    QVERIFY(!sheet.takeScan(QStringLiteral("B-0001"))); // nobody is asked to sign yet
    Plan plan;
    plan.signers = [&](bool) { return open.signersOfRoles({"authoriser"}); };
    plan.act = [](const tablet::Filled&, const std::optional<yard::Signing>&, const std::optional<yard::Signing>&) {
        return yard::Receipt{};
    };
    sheet.open(std::move(plan), &open, {}, yard.session.reading);
    if (sheet.hand() == Sheet::Kind::Choice) {
        sheet.choose(QStringLiteral("right"));
        sheet.take();
    }
    QVERIFY(!sheet.takeScan(QStringLiteral("B-0002"))); // Odd may not
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    QVERIFY(sheet.takeScan(QStringLiteral("B-0001")));
    QCOMPARE(sheet.hand(), Sheet::Kind::Pin);
    QVERIFY(sheet.askText().contains(QLatin1String("Ada")));
    QVERIFY(!sheet.canTake());
    QVERIFY(open.giveBadge("Ada", "").has_value());
    QCOMPARE(open.personOfBadge("B-0001"), std::string());
}

void SheetTest::noPropertyShowsThePin()
{
    Yard yard;
    QVERIFY(yard.opened);
    Sheet sheet;
    sheet.open(tablet::clockPlan(yard.session), &yard.session.yard(), {}, yard.session.reading);
    if (sheet.hand() == Sheet::Kind::Choice) {
        sheet.choose(QStringLiteral("right"));
        sheet.take();
    }
    QCOMPARE(sheet.hand(), Sheet::Kind::People);
    sheet.pickPerson(QStringLiteral("Ada"));
    typePin(sheet, QStringLiteral("580271"));
    for (int i = 0; i < sheet.metaObject()->propertyCount(); ++i) {
        const QVariant value = sheet.metaObject()->property(i).read(&sheet);
        QVERIFY2(!value.toString().contains(QLatin1String("580271")), sheet.metaObject()->property(i).name());
    }
    QCOMPARE(sheet.dots(), 6);
}

BRIMFUL_SUITE(SheetTest);
#include "sheet_test.moc"
