// audit, explain, ledger: what was proven, and whether the record still says so.
#include "app/cli/acts.h"
#include "app/cli/commands.h"
#include "app/print/pages.h"
#include "core/yard/iso_time.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string vessel, before, pdf, requirement, file;
};

// 0 released, 1 not, 3 when the record is damaged.
int audit(Options& options, yard::Yard& yard, const Arguments& a)
{
    const auto audit = yard.audit(a.vessel, a.before, options.asIf());
    if (!audit) {
        return options.fail(audit.error(), &yard.pack(options.asIf()));
    }
    if (!a.pdf.empty() && !print::writeAuditPdf(a.pdf, *audit, yard.pack(options.asIf()), options.reading())) {
        return failPage(options, a.pdf);
    }
    if (options.json) {
        options.print(auditJson(*audit));
    } else {
        say(print::auditText(*audit, yard.pack(options.asIf()), options.reading()));
    }
    return !audit->verified.intact() ? kDamaged : audit->released ? kYes : kNo;
}

int explain(Options& options, yard::Yard& yard, const Arguments& a)
{
    const rules::Pack& pack = yard.pack(options.asIf());
    for (const rules::HoldPoint& hold_point : pack.hold_points) {
        const auto audit = yard.audit(a.vessel, hold_point.id, options.asIf());
        if (!audit) {
            return options.fail(audit.error(), &pack);
        }
        for (const report::RequirementShown& requirement : audit->requirements) {
            if (requirement.rule != a.requirement) {
                continue;
            }
            if (options.json) {
                report::Audit only = *audit;
                only.requirements = {requirement};
                options.print(auditJson(only));
            } else {
                say(QStringLiteral("%1 (%2)").arg(
                    text::ofPack(pack, "rule." + requirement.rule), text::ofPack(pack, "barrier." + requirement.barrier)));
                for (const report::EvidenceShown& shown : requirement.evidence) {
                    say(QStringLiteral("  %1 %2 %3  %4  %5  %6")
                            .arg(QString::fromStdString(shown.step), QString::fromStdString(shown.fact),
                                QString::fromStdString(shown.value), text::lack(shown.lack), QString::fromStdString(shown.person),
                                shown.entry.isZero() ? QString() : QString::fromStdString(canon::toHex(shown.entry))));
                    if (shown.photo) {
                        say(Tr::tr("  photograph: %1").arg(text::photograph(*shown.photo, shown.of_vessel)));
                    }
                }
                for (const rules::SourceRef& source : requirement.sources) {
                    say(QStringLiteral("  %1").arg(text::sourceLine(source)));
                }
            }
            const bool holds =
                requirement.list == rules::List::Stop ? requirement.truth != rules::Truth::False : requirement.truth != rules::Truth::True;
            return holds ? kNo : kYes;
        }
    }
    return options.failInput("unknown-requirement", "requirement", {}, a.requirement,
        Tr::tr("No requirement is called \"%1\".").arg(QString::fromStdString(a.requirement)));
}

int ledgerShow(Options& options, yard::Yard& yard, const Arguments& a)
{
    const auto trail = yard.trail(a.vessel);
    if (!trail) {
        return options.fail(trail.error());
    }
    Json entries = Json::array();
    for (const report::TrailLine& line : *trail) {
        Json one = Json::object();
        one.set("entry", canon::toHex(line.hash)).set("kind", ledger::kindWord(line.kind));
        one.set("at", yard::formatTime(line.true_ms.value_or(line.at.wall_ms))).set("person", line.person).set("role", line.role);
        one.set("step", line.step).set("hold_point", line.hold_point).set("event", line.event).set("counts", Json::boolean(line.counts));
        if (!line.answered.empty()) {
            Json answer = Json::object();
            answer.set("fact", line.answered).set("row", line.answered_row);
            answer.set("value", line.answer.is(canon::Type::Object) ? Json(line.answer.textOf("typed")) : line.answer);
            one.set("own_answer", answer);
        }
        if (!line.photos.empty()) {
            one.set("photos", ledger::written(line.photos));
        }
        entries.items.push_back(one);
        if (!options.json) {
            const QString answered = text::ownAnswer(yard.pack(), line, options.reading());
            say(QStringLiteral("%1  %2  %3%4%5")
                    .arg(text::dateTime(line.true_ms.value_or(line.at.wall_ms), options.reading()), text::trailTitle(yard.pack(), line),
                        QString::fromStdString(line.person), line.counts ? QString() : Tr::tr("  (does not count)"),
                        answered.isEmpty() ? QString() : QStringLiteral("  ") + answered));
            for (const auto& [file, photo] : line.photos) {
                say(Tr::tr("  photograph: %1").arg(text::photograph(photo, true)));
            }
        }
    }
    Json out = Json::object();
    out.set("entries", entries);
    return options.json ? options.print(out) : static_cast<int>(kYes);
}

// Without opening the yard: a damaged record must still be told about.
int ledgerVerify(Options& options)
{
    auto opened = yard::Yard::open(options.yard_folder, yard::Access::ReadOnly, options.clock());
    if (!opened) {
        return options.fail(opened.error());
    }
    const Progress progress;
    const auto verification = opened->verify(progress.hears());
    progress.done();
    if (!verification) {
        return options.fail(verification.error());
    }
    Json consequences = Json::array();
    Json first = Json();
    for (const ledger::Finding& finding : verification->findings) {
        Json one = Json::object();
        one.set("entry", finding.entry.isZero() ? Json() : Json(canon::toHex(finding.entry)))
            .set("row", static_cast<std::int64_t>(finding.row));
        one.set("what", text::flaw(finding).toStdString());
        if (first.is(canon::Type::Null)) {
            first = one;
        } else {
            consequences.items.push_back(one);
        }
        if (!options.json) {
            say(Tr::tr("Entry %1: %2").arg(QString::fromStdString(canon::toHex(finding.entry)), text::flaw(finding)));
        }
    }
    Json out = Json::object();
    out.set("intact", Json::boolean(verification->intact())).set("entries", static_cast<std::int64_t>(verification->entries));
    out.set("first_bad", first).set("consequences", consequences);
    if (options.json) {
        options.print(out);
    } else if (verification->intact()) {
        say(Tr::tr("Intact: %1 entries, %2 signatures.").arg(verification->entries).arg(verification->signatures));
    }
    return verification->intact() ? kYes : kDamaged;
}

// How many entries, files ... went where.
int counted(const Options& options, const std::vector<std::pair<const char*, std::uint64_t>>& counts, const std::string& file = {})
{
    Json out = Json::object();
    QStringList words;
    for (const auto& [key, count] : counts) {
        out.set(key, static_cast<std::int64_t>(count));
        const std::string_view what = key;
        words.push_back(what == "entries" ? Tr::tr("entries: %1").arg(count)
                : what == "known"         ? Tr::tr("known already: %1").arg(count)
                : what == "files"         ? Tr::tr("photographs and documents: %1").arg(count)
                                          : Tr::tr("older copies dropped: %1").arg(count));
    }
    if (!file.empty()) {
        out.set("file", file);
        words.push_back(QString::fromStdString(file));
    }
    if (options.json) {
        return options.print(out);
    }
    say(words.join(QStringLiteral(", ")));
    return kYes;
}

void addLedger(CLI::App& app, Options& options, Run& run, const std::shared_ptr<Arguments>& a)
{
    CLI::App* ledger = app.add_subcommand("ledger", "the audit trail")->require_subcommand(1);
    CLI::App* show = ledger->add_subcommand("show", "a vessel's entries");
    show->add_option("id", a->vessel)->required();
    show->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return ledgerShow(options, yard, *a); });
        };
    });
    CLI::App* carry_out = ledger->add_subcommand("export", "all entries into one file, with their photographs and documents");
    carry_out->add_option("file", a->file)->required();
    carry_out->add_option("--vessel", a->vessel, "photographs and documents of this vessel alone; the entries go whole");
    carry_out->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) {
                const auto done = yard.exportEntries(a->file, a->vessel);
                return done ? counted(options, {{"entries", done->entries}, {"files", done->files}}) : options.fail(done.error());
            });
        };
    });
    CLI::App* carry_in = ledger->add_subcommand("import", "take in what a file of entries has more; all of it or nothing");
    carry_in->add_option("file", a->file)->required();
    carry_in->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) {
                const auto done = yard.importEntries(a->file);
                return done ? counted(options, {{"entries", done->entries}, {"known", done->known}, {"files", done->files}})
                            : options.fail(done.error());
            });
        };
    });
    CLI::App* back_up = ledger->add_subcommand("backup", "a verified copy into a folder; seven days and four weeks are kept");
    back_up->add_option("folder", a->file)->required();
    back_up->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) {
                const auto done = yard.backup(a->file);
                return done ? counted(
                           options, {{"entries", done->entries}, {"files", done->files}, {"dropped", done->dropped}}, done->file.string())
                            : options.fail(done.error());
            });
        };
    });
    CLI::App* restore = ledger->add_subcommand("restore", "a backup or export into a yard's folder that holds no entries");
    restore->add_option("file", a->file)->required();
    restore->callback([&options, &run, a] {
        run = [&options, a] {
            if (const auto refused = refusedAt(options)) {
                return *refused;
            }
            const auto done = yard::Yard::restore(options.yard_folder, a->file);
            return done ? counted(options, {{"entries", done->entries}, {"files", done->files}}) : options.fail(done.error());
        };
    });
    ledger->add_subcommand("verify", "recompute everything from the stored bytes; 3 when it does not fit")->callback([&options, &run] {
        run = [&options] { return ledgerVerify(options); };
    });
}

} // namespace

void addAskCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* auditing = app.add_subcommand("audit", "is it released now? every requirement with its evidence");
    auditing->add_option("id", a->vessel)->required();
    auditing->add_option("--before", a->before, "hold point")->required();
    auditing->add_option("--pdf", a->pdf, "write the report as PDF");
    auditing->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return audit(options, yard, *a); });
        };
    });
    CLI::App* explaining = app.add_subcommand("explain", "why a requirement holds or not, down to entries");
    explaining->add_option("id", a->vessel)->required();
    explaining->add_option("requirement", a->requirement)->required();
    explaining->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return explain(options, yard, *a); });
        };
    });
    addLedger(app, options, run, a);
}

} // namespace brimful::cli
