#include "app/cli/acts.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

} // namespace

int withYard(Options& options, yard::Access access, const std::function<int(yard::Yard&)>& use)
{
    if (!options.at.empty() && access != yard::Access::ReadOnly) {
        report::Refusal refusal;
        refusal.why = report::Why::WritesNeedNow;
        refusal.path = "--at";
        return options.fail(refusal);
    }
    auto opened = yard::Yard::open(options.yard_folder, access, options.clock());
    return opened ? use(*opened) : options.fail(opened.error());
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
    const int code = receipt(options, yard, done);
    if (done || options.json) {
        return code;
    }
    const auto folded = yard.folded(vessel);
    const auto view = yard.vessel(vessel);
    for (const rules::Blocker& blocker : done.error().blockers) {
        if (folded && view) {
            const text::Held held = text::heldBy(yard.pack(), *view, blocker, options.reading());
            warn(QStringLiteral("  - %1 %2").arg(held.reason, held.remedy));
        }
    }
    return code;
}

} // namespace brimful::cli
