// vessel, record, confirm, event, release, withdraw, correct, clear, fork, gap.
#include "app/cli/acts.h"
#include "app/cli/commands.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

constexpr const char* kAnswerHelp = "the value that the second person gives himself; must be what the first one gave";

struct Arguments {
    std::string vessel, step, in, by, with, event, note, hold_point, tag, answers, own_answer, why, entry, stop, found, done, instrument,
        cannot;
    std::vector<std::string> photos;
};

std::optional<yard::Signing> maybe(Options& options, const std::string& person)
{
    return person.empty() ? std::nullopt : std::optional<yard::Signing>(options.signing(person));
}

// The second person's own value: what was given, else asked for on a terminal; null where none was.
canon::Json ownAnswer(Options& options, const rules::Pack& pack, const std::optional<evidence::AskedOfSecond>& asked, std::string given)
{
    if (given.empty() && asked) {
        const QString row = asked->row.empty() ? QString() : QString::fromStdString(asked->row) + QStringLiteral(": ");
        //: on a terminal, before the second person's PIN; %1 a row's name or nothing, %2 what is asked
        given = options.answer(Tr::tr("Second person: %1%2").arg(row, text::factAsk(pack, asked->fact)));
    }
    if (given.empty()) {
        return {};
    }
    bool whole = false;
    const qlonglong count = QString::fromStdString(given).toLongLong(&whole);
    const bool counted = whole && asked && pack.facts[asked->fact].kind == rules::FactKind::Count;
    return counted ? canon::Json(static_cast<std::int64_t>(count)) : canon::Json(given);
}

int list(Options& options, yard::Yard& yard)
{
    const Progress progress;
    const auto board = yard.board(options.asIf(), progress.hears());
    progress.done();
    if (!board) {
        return options.fail(board.error());
    }
    if (options.json) {
        return options.print(boardJson(yard.pack(options.asIf()), *board));
    }
    for (const report::BoardRow& row : *board) {
        const rules::Standing& standing = row.view->standing;
        say(QStringLiteral("%1  %2  %3  %4")
                .arg(QString::fromStdString(row.view->number), -12)
                .arg(text::plateWord(row.view->word), -12)
                .arg(text::plateLine(*row.view, yard.pack(options.asIf()), options.reading()), -28)
                .arg(standing.next.empty() ? QString() : text::nextThing(yard.pack(options.asIf()), standing.next.front())));
    }
    return kYes;
}

int show(Options& options, yard::Yard& yard, const std::string& number)
{
    const auto folded = yard.folded(number, options.asIf());
    const auto view = yard.vessel(number, options.asIf());
    if (!folded || !view) {
        return options.fail(folded ? view.error() : folded.error());
    }
    const int code = view->standing.state == rules::State::Released || view->standing.state == rules::State::Closed ? kYes : kNo;
    if (options.json) {
        options.print(standingJson(yard.pack(options.asIf()), *folded, *view, options.reading()));
        return code;
    }
    const text::Reading reading = options.reading();
    say(QStringLiteral("%1: %2 %3. %4")
            .arg(QString::fromStdString(number), text::signalWord(view->signal), text::plateWord(view->word),
                text::plateLine(*view, yard.pack(options.asIf()), reading)));
    for (const rules::Blocker& blocker : view->standing.blockers) {
        const text::Held held = text::heldBy(yard.pack(options.asIf()), *view, blocker, reading);
        say(QStringLiteral("  - %1 %2 (%3)").arg(held.reason, held.remedy, held.who));
    }
    if (!view->standing.next.empty()) {
        say(Tr::tr("Next:"));
        for (const rules::Next& next : view->standing.next) {
            say(QStringLiteral("  %1").arg(text::nextThing(yard.pack(options.asIf()), next)));
        }
    }
    return code;
}

void addVessel(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* vessel = app.add_subcommand("vessel", "vessels and where they stand")->require_subcommand(1);
    CLI::App* add = vessel->add_subcommand("add", "admit a vessel");
    add->add_option("--in", a->in, R"(JSON: {"number", "vessel": {...}, "note"}; - for standard input)")->required();
    add->add_option("--by", a->by)->required();
    add->callback([&options, &run, a] {
        run = [&options, a] {
            const auto request = readJson(options, a->in, canon::Dialect::Any);
            return !request ? static_cast<int>(kInput) : withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                return receipt(options, yard, yard.admit(*request, options.signing(a->by)));
            });
        };
    });
    vessel->add_subcommand("list", "the board, in order of need")->callback([&options, &run] {
        run = [&options] { return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return list(options, yard); }); };
    });
    CLI::App* showing = vessel->add_subcommand("show", "one vessel: standing, reasons, next");
    showing->add_option("id", a->vessel)->required();
    showing->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return show(options, yard, a->vessel); });
        };
    });
}

void addRecord(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* record = app.add_subcommand("record", "facts of a step, signed");
    record->add_option("id", a->vessel, "vessel's number; - for a step of the whole yard")->required();
    record->add_option("step", a->step)->required();
    record->add_option("--in", a->in, "JSON facts; - for standard input");
    record->add_option("--by", a->by)->required();
    record->add_option("--with", a->with, "the second person");
    record->add_option("--answer", a->own_answer, kAnswerHelp);
    record->add_option("--photo", a->photos, "fact=file; repeat for several");
    record->add_option("--instrument", a->instrument);
    record->add_option("--cannot", a->cannot, "an honest cannot, with its reason");
    record->callback([&options, &run, a] {
        run = [&options, a] {
            yard::RecordRequest request{
                a->vessel == "-" ? std::string() : a->vessel, a->step, canon::Json::object(), a->instrument, a->cannot, {}};
            if (!a->in.empty()) {
                const auto facts = readJson(options, a->in, canon::Dialect::Any);
                if (!facts) {
                    return static_cast<int>(kInput);
                }
                request.facts = *facts;
            }
            for (const std::string& photo : a->photos) {
                const auto equals = photo.find('=');
                if (equals == std::string::npos) {
                    report::Refusal refusal;
                    refusal.why = report::Why::BadFact;
                    refusal.path = "--photo";
                    refusal.expected = "fact=file";
                    refusal.found = photo;
                    return options.fail(refusal);
                }
                request.files[photo.substr(0, equals)] = photo.substr(equals + 1);
            }
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const rules::Index step = yard.pack().step(request.step);
                const bool asks = !a->with.empty() && a->cannot.empty() && step != rules::kNone;
                const auto asked = asks ? evidence::askedOfSecond(yard.pack(), step, request.facts) : std::nullopt;
                request.own_answer = ownAnswer(options, yard.pack(), asked, a->own_answer);
                const auto with = maybe(options, a->with);
                return receipt(options, yard, yard.record(request, by, with));
            });
        };
    });
    CLI::App* confirm = app.add_subcommand("confirm", "the second person's signature on an entry");
    confirm->add_option("entry", a->entry)->required();
    confirm->add_option("--by", a->by)->required();
    confirm->add_option("--answer", a->own_answer, kAnswerHelp);
    confirm->callback([&options, &run, a] {
        run = [&options, a] {
            const auto hash = canon::fromHex<Hash>(a->entry);
            if (!hash) {
                report::Refusal refusal;
                refusal.why = report::Why::UnknownEntry;
                refusal.path = a->entry;
                return options.fail(refusal);
            }
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto asked = yard.askedOfSecond(*hash);
                const auto answer = ownAnswer(options, yard.pack(), asked ? *asked : std::nullopt, a->own_answer);
                return receipt(options, yard, yard.confirm(*hash, options.signing(a->by), answer));
            });
        };
    });
    CLI::App* correct = app.add_subcommand("correct", "withdraw a record; a new one must follow");
    correct->add_option("entry", a->entry)->required();
    correct->add_option("--why", a->why)->required();
    correct->add_option("--by", a->by)->required();
    correct->callback([&options, &run, a] {
        run = [&options, a] {
            const auto hash = canon::fromHex<Hash>(a->entry);
            if (!hash) {
                report::Refusal refusal;
                refusal.why = report::Why::UnknownEntry;
                refusal.path = a->entry;
                return options.fail(refusal);
            }
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.correct(*hash, a->why, options.signing(a->by))); });
        };
    });
}

void addTakingAway(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* event = app.add_subcommand("event", "something happened: moved, water-lost, alarm, concern ...; nobody's PIN is needed");
    event->add_option("id", a->vessel)->required();
    event->add_option("kind", a->event)->required();
    event->add_option("--by", a->by);
    event->add_option("--note", a->note);
    event->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.event(a->vessel, a->event, a->note, maybe(options, a->by))); });
        };
    });
    CLI::App* withdraw = app.add_subcommand("withdraw", "take a release back; nobody's PIN is needed");
    withdraw->add_option("id", a->vessel)->required();
    withdraw->add_option("hold-point", a->hold_point)->required();
    withdraw->add_option("--by", a->by);
    withdraw->add_option("--why", a->why);
    withdraw->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                return receipt(options, yard, yard.withdraw(a->vessel, a->hold_point, a->why, maybe(options, a->by)));
            });
        };
    });
}

void addGiving(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* release = app.add_subcommand("release", "give a release; refused with every reason when held");
    release->add_option("id", a->vessel)->required();
    release->add_option("hold-point", a->hold_point)->required();
    release->add_option("--by", a->by, "who gives it")->required();
    release->add_option("--with", a->with, "who accepts it")->required();
    release->add_option("--answer", a->own_answer, kAnswerHelp);
    release->add_option("--tag", a->tag, "what the newest tag says, or its short code");
    release->add_option("--answers", a->answers, "JSON answers; - for standard input");
    release->callback([&options, &run, a] {
        run = [&options, a] {
            yard::ReleaseRequest request{a->vessel, a->hold_point, canon::Json::object(), a->tag};
            if (!a->answers.empty()) {
                const auto answers = readJson(options, a->answers, canon::Dialect::Any);
                if (!answers) {
                    return static_cast<int>(kInput);
                }
                request.answers = *answers;
            }
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const rules::Index hold_point = yard.pack().holdPoint(a->hold_point);
                const rules::Index talk = hold_point == rules::kNone ? rules::kNone : yard.pack().hold_points[hold_point].talk;
                const auto asked = talk == rules::kNone ? std::nullopt : evidence::askedOfSecond(yard.pack(), talk, request.answers);
                request.own_answer = ownAnswer(options, yard.pack(), asked, a->own_answer);
                const auto with = maybe(options, a->with);
                return releaseReceipt(options, yard, a->vessel, yard.release(request, by, with));
            });
        };
    });
    CLI::App* clear = app.add_subcommand("clear", "answer a stop by name");
    clear->add_option("id", a->vessel)->required();
    clear->add_option("stop", a->stop)->required();
    clear->add_option("--found", a->found, "what was found")->required();
    clear->add_option("--done", a->done, "what was done")->required();
    clear->add_option("--by", a->by)->required();
    clear->add_option("--with", a->with);
    clear->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const auto with = maybe(options, a->with);
                return receipt(options, yard, yard.clear(a->vessel, a->stop, a->found, a->done, by, with));
            });
        };
    });
    CLI::App* fork = app.add_subcommand("fork", "what two tablets wrote apart")->require_subcommand(1);
    CLI::App* join = fork->add_subcommand("join", "an authoriser has looked at both; without ID: the branches of a copied tablet");
    join->add_option("id", a->vessel);
    join->add_option("--why", a->why)->required();
    join->add_option("--by", a->by, "an authoriser")->required();
    join->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.joinFork(a->vessel, a->why, options.signing(a->by))); });
        };
    });
    CLI::App* gap = app.add_subcommand("gap", "a gap in the record")->require_subcommand(1);
    CLI::App* accept =
        gap->add_subcommand("accept", "two people accept that entries are gone; all but papers begins again; without ID: in every vessel");
    accept->add_option("id", a->vessel);
    accept->add_option("--why", a->why)->required();
    accept->add_option("--by", a->by, "an authoriser")->required();
    accept->add_option("--with", a->with)->required();
    accept->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const auto with = options.signing(a->with);
                return receipt(options, yard, yard.acceptGap(a->vessel, a->why, by, with));
            });
        };
    });
}

} // namespace

void addVesselCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    addVessel(app, options, run, a);
    addRecord(app, options, run, a);
    addTakingAway(app, options, run, a);
    addGiving(app, options, run, a);
}

} // namespace brimful::cli
