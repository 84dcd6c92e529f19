// demo, yard create, person, instrument, clock.
#include "app/cli/acts.h"
#include "app/cli/commands.h"

#include "core/yard/iso_time.h"
#include "core/yard/play.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string folder, name, owner, person, with, by, id, type, shown, expected, note, until, law, role, code;
    std::vector<std::string> roles, attributes;
};

void addPerson(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* person = app.add_subcommand("person", "people, roles and PINs")->require_subcommand(1);
    CLI::App* add = person->add_subcommand("add", "enrol somebody; PIN lines: --by's, then the new one's");
    add->add_option("name", a->name)->required();
    add->add_option("--role", a->roles, "roles; repeat for several")->required();
    add->add_option("--until", a->until, "competence ends on this day: 2027-01-31");
    add->add_option("--by", a->by, "an authoriser")->required();
    add->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto by = options.signing(a->by);
                const auto fresh = options.signing(a->name);
                yard::PersonRequest request{a->name, fresh.pin, a->roles, std::nullopt};
                if (!a->until.empty()) {
                    request.until_ms = yard::parseTime(a->until);
                    if (!request.until_ms) {
                        report::Refusal refusal;
                        refusal.why = report::Why::BadTime;
                        refusal.path = "--until";
                        refusal.found = a->until;
                        return options.fail(refusal);
                    }
                }
                return receipt(options, yard, yard.addPerson(request, by));
            });
        };
    });
    CLI::App* grant = person->add_subcommand("grant", "more roles for somebody who is enrolled");
    grant->add_option("name", a->name)->required();
    grant->add_option("--role", a->roles, "roles; repeat for several")->required();
    grant->add_option("--by", a->by, "an authoriser")->required();
    grant->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.grant(a->name, a->roles, options.signing(a->by))); });
        };
    });
    CLI::App* retire = person->add_subcommand("retire", "end every role, or one");
    retire->add_option("name", a->name)->required();
    retire->add_option("--role", a->role, "only this role");
    retire->add_option("--by", a->by, "an authoriser")->required();
    retire->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.endRole(a->name, a->role, options.signing(a->by))); });
        };
    });
    CLI::App* badge = person->add_subcommand("badge", "a badge that says on this tablet who is about to sign; no PIN is replaced");
    badge->add_option("name", a->name)->required();
    badge->add_option("code", a->code, "what a scanner reads from it; left out: no badge any more");
    badge->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto done = yard.giveBadge(a->name, a->code);
                return done ? static_cast<int>(kYes) : options.fail(done.error());
            });
        };
    });
    person->add_subcommand("list", "who may sign what")->callback([&options, &run] {
        run = [&options] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) {
                canon::Json list = canon::Json::array();
                for (const yard::PersonShown& one : yard.people()) {
                    canon::Json roles = canon::Json::array();
                    QStringList words;
                    for (const ledger::Role& role : one.roles) {
                        if (role.until_ms > yard.nowMs()) {
                            roles.items.emplace_back(role.role);
                            words.push_back(text::roleName(yard.pack(), role.role));
                        }
                    }
                    canon::Json row = canon::Json::object();
                    row.set("name", one.name).set("roles", roles).set("retired", canon::Json::boolean(one.retired));
                    row.set("signs_here", canon::Json::boolean(one.signs_here));
                    list.items.push_back(row);
                    if (!options.json) {
                        say(QStringLiteral("%1  %2%3")
                                .arg(QString::fromStdString(one.name), -12)
                                .arg(words.join(QStringLiteral(", ")), one.retired ? Tr::tr(" (retired)") : QString()));
                    }
                }
                canon::Json out = canon::Json::object();
                out.set("people", list);
                return options.json ? options.print(out) : static_cast<int>(kYes);
            });
        };
    });
}

void addInstrument(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* instrument = app.add_subcommand("instrument", "meters, calibration and bump checks")->require_subcommand(1);
    CLI::App* add = instrument->add_subcommand("add", "enrol an instrument");
    add->add_option("id", a->id)->required();
    add->add_option("--type", a->type, "gas-meter, pressure-gauge")->required();
    add->add_option("--set", a->attributes, "sensor=catalytic calibrated_on=methane response_factor=1.62 limit_basis=\"2.1 %\"");
    add->add_option("--calibrated-until", a->until, "2027-01-31")->required();
    add->add_option("--by", a->by, "an authoriser")->required();
    add->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto until = yard::parseTime(a->until);
                if (!until) {
                    report::Refusal refusal;
                    refusal.why = report::Why::BadTime;
                    refusal.path = "--calibrated-until";
                    refusal.found = a->until;
                    return options.fail(refusal);
                }
                yard::InstrumentRequest request{a->id, a->type, {}, *until};
                for (const std::string& attribute : a->attributes) {
                    const auto equals = attribute.find('=');
                    if (equals == std::string::npos) {
                        report::Refusal refusal;
                        refusal.why = report::Why::BadFact;
                        refusal.path = "--set";
                        refusal.expected = "key=value";
                        refusal.found = attribute;
                        return options.fail(refusal);
                    }
                    request.attributes[attribute.substr(0, equals)] = attribute.substr(equals + 1);
                }
                return receipt(options, yard, yard.addInstrument(request, options.signing(a->by)));
            });
        };
    });
    CLI::App* check = instrument->add_subcommand("check", "a bump check");
    check->add_option("id", a->id)->required();
    check->add_option("--shown", a->shown, "what it shows: \"49 %LEL\"")->required();
    check->add_option("--expected", a->expected, "what the bottle says: \"50 %LEL\"")->required();
    check->add_option("--note", a->note);
    check->add_option("--by", a->by)->required();
    check->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                return receipt(options, yard, yard.checkInstrument({a->id, a->shown, a->expected, a->note}, options.signing(a->by)));
            });
        };
    });
    instrument->add_subcommand("list", "instruments and when they were checked")->callback([&options, &run] {
        run = [&options] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) {
                canon::Json list = canon::Json::array();
                for (const yard::InstrumentShown& one : yard.instruments()) {
                    canon::Json row = canon::Json::object();
                    row.set("id", one.instrument.id)
                        .set("type", one.instrument.type)
                        .set("in_calibration", canon::Json::boolean(one.in_calibration));
                    row.set("calibrated_until", yard::formatTime(one.instrument.calibrated_until_ms));
                    row.set("bumped", one.bumped_ms ? canon::Json(yard::formatTime(*one.bumped_ms)) : canon::Json());
                    list.items.push_back(row);
                    if (!options.json) {
                        say(QStringLiteral("%1  %2  %3")
                                .arg(QString::fromStdString(one.instrument.id), -8)
                                .arg(text::instrumentType(one.instrument.type), -14)
                                .arg(one.bumped_ms ? Tr::tr("checked %1").arg(text::dateTime(*one.bumped_ms, options.reading()))
                                                   : Tr::tr("not checked")));
                    }
                }
                canon::Json out = canon::Json::object();
                out.set("instruments", list);
                return options.json ? options.print(out) : static_cast<int>(kYes);
            });
        };
    });
}

// {"questions": [{"what", "vessels", "at", "persons", "entries", its numbers, "text", "ask"}], "cards", "releases", "vessels"}
canon::Json questionJson(const rules::Pack& pack, const report::Question& question, const text::Reading& reading)
{
    const auto texts = [](const std::vector<std::string>& list) {
        canon::Json out = canon::Json::array();
        out.items.assign(list.begin(), list.end());
        return out;
    };
    std::vector<std::string> entries, steps;
    for (const Hash& entry : question.entries) {
        entries.push_back(canon::toHex(entry));
    }
    for (const rules::Index step : question.steps) {
        steps.push_back(pack.steps[step].id);
    }
    canon::Json out = canon::Json::object();
    out.set("what", report::questionWord(question.what)).set("at", yard::formatTime(question.at_ms));
    out.set("vessels", texts(question.vessels)).set("persons", texts(question.persons)).set("entries", texts(entries));
    out.set("steps", texts(steps)).set("count", static_cast<std::int64_t>(question.count));
    if (question.takes_ms > 0) {
        out.set("took_s", question.took_ms / 1000).set("takes_s", question.takes_ms / 1000);
    }
    if (question.fact != rules::kNone) {
        out.set("fact", pack.facts[question.fact].id).set("value", question.value);
    }
    if (question.hold_point != rules::kNone) {
        out.set("hold_point", pack.hold_points[question.hold_point].id);
    }
    const text::Asking words = text::toAsk(pack, question, reading);
    return out.set("text", words.what.toStdString()).set("ask", words.ask.toStdString());
}

int questions(const Options& options, yard::Yard& yard)
{
    const Progress progress;
    const auto asked = yard.toAsk(progress.hears());
    progress.done();
    if (!asked) {
        return options.fail(asked.error());
    }
    canon::Json list = canon::Json::array();
    for (const report::Question& question : asked->questions) {
        list.items.push_back(questionJson(yard.pack(), question, options.reading()));
        if (!options.json) {
            const text::Asking words = text::toAsk(yard.pack(), question, options.reading());
            QStringList who{text::dateTime(question.at_ms, options.reading())};
            for (const std::string& person : question.persons) {
                who.push_back(QString::fromStdString(person));
            }
            say(QStringLiteral("%1\n  %2\n  %3").arg(words.what, words.ask, who.join(QStringLiteral(", "))));
        }
    }
    if (options.json) {
        canon::Json out = canon::Json::object();
        out.set("questions", list).set("cards", static_cast<std::int64_t>(asked->cards));
        out.set("releases", static_cast<std::int64_t>(asked->releases)).set("vessels", static_cast<std::int64_t>(asked->vessels));
        return options.print(out);
    }
    say(text::lookedAt(*asked, options.reading()));
    if (asked->questions.empty()) {
        say(text::nothingStoodOut());
    }
    return kYes;
}

} // namespace

void addYardCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* demo = app.add_subcommand("demo", "make the demo yard in an empty folder");
    demo->add_option("folder", a->folder)->required();
    CLI::Option* law = demo->add_option("--law", a->law, "us, uk, eu, au, ca, or all; the demo's own: us");
    demo->callback([&options, &run, a, law] {
        run = [&options, a, law] {
            if (const auto refused = refusedAt(options)) {
                return *refused;
            }
            const auto played = yard::makeDemo(a->folder, law->count() > 0 ? std::optional(lawOf(a->law)) : std::nullopt);
            if (!played) {
                return options.fail(played.error());
            }
            if (options.json) {
                canon::Json out = canon::Json::object();
                out.set("folder", a->folder).set("acts", static_cast<std::int64_t>(played->lines.size()));
                return options.print(out);
            }
            say(Tr::tr("Demo yard made in %1: %2 acts played.").arg(QString::fromStdString(a->folder)).arg(played->lines.size()));
            return static_cast<int>(kYes);
        };
    });

    CLI::App* yards = app.add_subcommand("yard", "a yard")->require_subcommand(1);
    CLI::App* create = yards->add_subcommand("create", "a new yard with its first authoriser");
    create->add_option("folder", a->folder)->required();
    create->add_option("--owner", a->owner, "name of the first authoriser")->required();
    create->add_option("--name", a->name, "name of the yard");
    create->add_option("--law", a->law, "us, uk, eu, au, ca: the law of the place; all or left out: all of them together");
    create->callback([&options, &run, a] {
        run = [&options, a] {
            if (const auto refused = refusedAt(options)) {
                return *refused;
            }
            const auto owner = options.signing(a->owner);
            const auto created = yard::Yard::create(
                a->folder, {a->name.empty() ? a->owner : a->name, a->owner, owner.pin, "tablet", false, lawOf(a->law)}, options.clock());
            if (!created) {
                return options.fail(created.error());
            }
            if (options.json) {
                canon::Json out = canon::Json::object();
                out.set("folder", a->folder).set("clock", yard::formatTime(options.clock().now().wall_ms));
                out.set("recovery_sheet", created->recovery_sheet);
                return options.print(out);
            }
            say(Tr::tr("Yard made. The clock says %1; it is confirmed by this act.")
                    .arg(text::dateTime(options.clock().now().wall_ms, options.reading())));
            say(Tr::tr("Recovery sheet. Print it, lock it away, keep it nowhere else. Its only power is to enrol an authoriser:"));
            say(QString::fromStdString(created->recovery_sheet));
            return static_cast<int>(kYes);
        };
    });

    yards
        ->add_subcommand("questions",
            "what a supervisor may ask in person: work signed sooner than it takes, cards signed together, the same values, "
            "always the same two people, nothing ever found; each rests on entries and accuses nobody")
        ->callback([&options, &run] {
            run = [&options] {
                return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return questions(options, yard); });
            };
        });

    addPerson(app, options, run, a);
    addInstrument(app, options, run, a);

    CLI::App* clock = app.add_subcommand("clock", "date and time")->require_subcommand(1);
    CLI::App* confirm = clock->add_subcommand("confirm", "this machine's date and time are right");
    confirm->add_option("--by", a->by)->required();
    confirm->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                return receipt(options, yard, yard.confirmClock(options.clock().now().wall_ms, options.signing(a->by)));
            });
        };
    });

    addLaw(app, options, run);
}

} // namespace brimful::cli
