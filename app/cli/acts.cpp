#include "app/cli/acts.h"
#include "app/cli/commands.h"
#include "app/print/photograph.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

} // namespace

std::optional<int> refusedAt(const Options& options)
{
    if (options.at.empty()) {
        return std::nullopt;
    }
    report::Refusal refusal;
    refusal.why = report::Why::WritesNeedNow;
    refusal.path = "--at";
    return options.fail(refusal);
}

int withYard(Options& options, yard::Access access, const std::function<int(yard::Yard&)>& use)
{
    if (access != yard::Access::ReadOnly) {
        if (const auto refused = refusedAt(options)) {
            return *refused;
        }
    }
    auto opened = yard::Yard::open(options.yard_folder, access, options.clock());
    if (!opened) {
        return options.fail(opened.error());
    }
    opened->setPictures(print::barePhotograph);
    const int code = use(*opened);
    if (access != yard::Access::ReadOnly && !opened->fault()) {
        // What was recorded is durable already; this brings it from the log into the main file.
        if (const auto kept = opened->checkpoint(); !kept) {
            warn(text::refusal(kept.error(), nullptr));
        }
    }
    return code;
}

int failPage(const Options& options, const std::string& path)
{
    report::Refusal refusal;
    refusal.why = report::Why::NoPermission;
    refusal.path = path;
    return options.fail(refusal);
}

int receipt(const Options& options, const yard::Yard& yard, const yard::Outcome<yard::Receipt>& done)
{
    if (!done) {
        return options.fail(done.error(), &yard.pack());
    }
    if (options.json) {
        canon::Json out = canon::Json::object();
        out.set("entry", canon::toHex(done->entry)).set("counts", canon::Json::boolean(done->counts));
        out.set("failing", canon::Json::boolean(done->failing));
        return options.print(out);
    }
    say(done->failing ? Tr::tr("Recorded. It is outside the limit and holds.")
            : done->counts
            ? Tr::tr("Recorded.")
            : Tr::tr("Recorded. It waits for a second person: confirm %1").arg(QString::fromStdString(canon::toHex(done->entry))));
    return kYes;
}

int releaseReceipt(const Options& options, yard::Yard& yard, const std::string& vessel, const yard::Outcome<yard::Receipt>& done)
{
    if (done || done.error().blockers.empty()) {
        return receipt(options, yard, done);
    }
    const auto folded = yard.folded(vessel);
    const auto view = yard.vessel(vessel);
    if (options.json) {
        canon::Json blockers = canon::Json::array();
        for (const rules::Blocker& blocker : done.error().blockers) {
            if (folded) {
                blockers.items.push_back(blockerJson(report::shown(yard.pack(), *folded, blocker)));
            }
        }
        canon::Json error = canon::Json::object();
        error.set("code", report::whyWord(done.error().why)).set("path", done.error().path).set("expected", done.error().expected);
        error.set("found", done.error().found).set("blockers", blockers);
        return options.failJson(error, static_cast<int>(report::answerOf(done.error().why)));
    }
    const int code = receipt(options, yard, done);
    for (const rules::Blocker& blocker : done.error().blockers) {
        if (folded && view) {
            const text::Held held = text::heldBy(yard.pack(), *view, blocker, options.reading());
            warn(QStringLiteral("  - %1 %2").arg(held.reason, held.remedy));
        }
    }
    return code;
}

} // namespace brimful::cli
