// pack adopt, pack show: which rules rule this yard, and what its law asks beyond them.
#include "app/cli/acts.h"
#include "app/cli/commands.h"

#include "core/yard/iso_time.h"

#include <QCoreApplication>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string law, pack, shop, by, with;
    bool without_shop{};
};

// A folder's pack for an adoption; false: there is none, and it was said.
bool given(const Options& options, const std::string& folder, std::optional<rules::PackSource>& into, int& failed)
{
    if (folder.empty()) {
        return true;
    }
    into = packNamed(folder);
    if (!into) {
        report::Refusal refusal;
        refusal.why = report::Why::UnknownPack;
        refusal.found = folder;
        failed = options.fail(refusal);
    }
    return into.has_value();
}

int adopt(Options& options, yard::Yard& yard, const Arguments& a)
{
    yard::AdoptRequest request;
    request.law = lawOf(a.law);
    request.without_shop = a.without_shop;
    int failed = kYes;
    if (!given(options, a.pack, request.pack, failed) || !given(options, a.shop, request.shop, failed)) {
        return failed;
    }
    const auto by = options.signing(a.by);
    const auto with = options.signing(a.with);
    const auto done = yard.adoptPack(request, by, with);
    if (!done && !options.json && done.error().example.is(canon::Type::Object)) {
        warn(Tr::tr("This would be granted and was not:"));
        warn(QString::fromStdString(canon::write(done.error().example, true)));
    }
    return receipt(options, yard, done);
}

int show(Options& options, yard::Yard& yard)
{
    const auto as_if = options.asIf();
    const rules::Pack& pack = yard.pack(as_if);
    const ledger::AdoptedPack* adopted = yard.adopted(as_if);
    std::vector<rules::PackPart> parts{{pack.id, pack.version, pack.hash}};
    parts.insert(parts.end(), pack.overlays.begin(), pack.overlays.end());
    const std::string law = adopted == nullptr ? std::string() : adopted->law;
    const std::vector<rules::Tightening> beyond = rules::tightenings(pack);
    if (options.json) {
        Json list = Json::array();
        for (const rules::Tightening& one : beyond) {
            const text::Tightened words = text::tightened(one, pack, options.reading());
            Json row = Json::object();
            row.set("id", one.id).set("by", one.by).set("tighter", Json::boolean(one.tighter)).set("from", one.from).set("to", one.to);
            row.set("asks", words.asks.toStdString()).set("source", words.source.toStdString());
            list.items.push_back(std::move(row));
        }
        Json out = Json::object();
        out.set("pack", adopted != nullptr ? adopted->id : std::string()).set("version", adopted != nullptr ? adopted->version : 0);
        out.set("hash", adopted != nullptr ? canon::toHex(adopted->hash) : std::string()).set("law", law);
        out.set("carried", canon::toHex(rules::manifestHash(*packNamed(std::string(rules::kCarriedPack)))));
        out.set("in_force", Json::boolean(yard.packInForce())).set("packs", partsJson(parts)).set("beyond", std::move(list));
        return options.print(out);
    }
    if (!yard.packInForce()) {
        warn(Tr::tr("The rules that were taken on are not at hand. Everything is held until two people take on rules again."));
    }
    say(Tr::tr("Law: %1").arg(text::lawName(law)));
    for (const rules::PackPart& part : parts) {
        say(QStringLiteral("  %1 %2  %3")
                .arg(QString::fromStdString(part.id))
                .arg(part.version)
                .arg(QString::fromStdString(canon::toHex(part.hash))));
    }
    for (const rules::Tightening& one : beyond) {
        const text::Tightened words = text::tightened(one, pack, options.reading());
        say(QStringLiteral("%1: %2").arg(words.what, words.asks));
        say(QStringLiteral("  %1: %2").arg(QString::fromStdString(one.by), words.source));
    }
    return kYes;
}

} // namespace

std::string lawOf(const std::string& word) { return word == "all" ? std::string() : word; }

void addLaw(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* pack = app.add_subcommand("pack", "which rules rule this yard")->require_subcommand(1);
    CLI::App* taken = pack->add_subcommand("adopt", "take on rules and a law, two people; proved first");
    taken->add_option("--law", a->law, "us, uk, eu, au, ca: the law of the place; all or left out: all of them together");
    taken->add_option("--pack", a->pack, "folder of another version of the rules; may grant nothing that those in force do not");
    taken->add_option("--shop", a->shop, "folder of the shop's own rules, which can only tighten");
    taken->add_flag("--without-shop", a->without_shop, "the shop's own rules end");
    taken->add_option("--by", a->by, "an authoriser")->required();
    taken->add_option("--with", a->with, "another person")->required();
    taken->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) { return adopt(options, yard, *a); });
        };
    });
    pack->add_subcommand("show", "rules in force, and what they ask beyond the base")->callback([&options, &run] {
        run = [&options] { return withYard(options, yard::Access::ReadOnly, [&](yard::Yard& yard) { return show(options, yard); }); };
    });
}

} // namespace brimful::cli
