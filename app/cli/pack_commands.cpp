// rules check, rules prove, rules cel, rules book: a pack from a folder or from the program, with what it stands on.
#include "app/cli/commands.h"
#include "app/print/book.h"
#include "core/rules/cel.h"
#include "core/rules/proof.h"

#include <QCoreApplication>
#include <QFile>

#include <algorithm>
#include <filesystem>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

} // namespace

std::optional<rules::PackSource> packNamed(const std::string& name)
{
    for (const rules::PackSource& source : rules::shippedPacks()) {
        if (source.id == name) {
            return source;
        }
    }
    if (!std::filesystem::is_directory(name)) {
        return std::nullopt;
    }
    rules::PackSource source;
    source.id = std::filesystem::path(name).filename().string();
    for (const auto& file : std::filesystem::recursive_directory_iterator(name)) {
        if (file.is_regular_file()) {
            source.files[std::filesystem::relative(file.path(), name).generic_string()] =
                slurp(file.path().string()).value_or(std::string());
        }
    }
    return source;
}

namespace {

// Every error; as JSON the first is the error, the whole list stands beside it.
int failPack(const Options& options, const std::vector<rules::LoadError>& errors)
{
    if (!options.json) {
        for (const rules::LoadError& error : errors) {
            warn(text::loadError(error));
        }
        return kInput;
    }
    Json all = Json::array();
    for (const rules::LoadError& error : errors) {
        Json one = Json::object();
        one.set("code", "pack-broken").set("path", error.file + ":" + std::to_string(error.line) + ":" + std::to_string(error.column));
        one.set("key", error.path).set("expected", error.expected).set("found", error.found).set("nearest", error.nearest);
        all.items.push_back(one);
    }
    Json first = all.items.empty() ? Json::object() : all.items.front();
    first.set("errors", all);
    return options.failJson(first, kInput);
}

// A pack with what it stands on: an overlay stands on the pack that it extends, beside it or shipped.
struct Together {
    rules::PackSource base;
    std::vector<rules::PackSource> overlays;
};

std::optional<Together> together(const Options& options, const std::string& name, int& failed)
{
    const auto unknown = [&](const std::string& which) {
        report::Refusal refusal;
        refusal.why = report::Why::UnknownPack;
        refusal.found = which;
        failed = options.fail(refusal);
        return std::optional<Together>();
    };
    auto source = packNamed(name);
    if (!source) {
        return unknown(name);
    }
    const auto head = source->files.find("pack.json");
    const auto json = head == source->files.end() ? std::nullopt : std::optional(canon::read(head->second, canon::Dialect::Subset));
    const std::string extends(json && *json ? (*json)->textOf("extends") : std::string_view());
    if (extends.empty()) {
        return Together{std::move(*source), {}};
    }
    const std::filesystem::path beside = std::filesystem::path(name).parent_path() / extends;
    auto base = packNamed(std::filesystem::is_directory(beside) ? beside.string() : extends);
    if (!base) {
        return unknown(extends);
    }
    return Together{std::move(*base), {std::move(*source)}};
}

// A pack that loads, or nothing with the errors said.
struct Loaded {
    Together sources;
    rules::Pack pack;
};

std::optional<Loaded> loadNamed(const Options& options, const std::string& name, int& failed)
{
    auto sources = together(options, name, failed);
    if (!sources) {
        return std::nullopt;
    }
    auto pack = rules::load(sources->base, sources->overlays);
    if (!pack) {
        failed = failPack(options, pack.error());
        return std::nullopt;
    }
    return Loaded{std::move(*sources), std::move(*pack)};
}

int checkPack(const Options& options, const std::string& name)
{
    int failed = kYes;
    const auto loaded_pack = loadNamed(options, name, failed);
    if (!loaded_pack) {
        return failed;
    }
    const auto& [sources, pack] = *loaded_pack;
    if (const auto claims = rules::loadClaims(sources.base, pack); !claims) {
        return failPack(options, claims.error());
    }
    // The talk before a release is kept like a step; it is none for whoever counts the pack's cards.
    const auto steps = std::ranges::count(pack.steps, rules::kNone, &rules::Step::talk_of);
    Json out = Json::object();
    out.set("pack", pack.id).set("version", pack.version).set("hash", canon::toHex(pack.hash));
    out.set("steps", static_cast<std::int64_t>(steps)).set("hold_points", static_cast<std::int64_t>(pack.hold_points.size()));
    if (options.json) {
        return options.print(out);
    }
    say(Tr::tr("%1 %2: %3 steps, %4 hold points, no errors.")
            .arg(QString::fromStdString(pack.id))
            .arg(pack.version)
            .arg(steps)
            .arg(pack.hold_points.size()));
    return kYes;
}

Json findingJson(const rules::Finding& finding)
{
    Json out = Json::object();
    out.set("law", text::lawId(finding.law)).set("subject", finding.subject);
    if (!finding.hold_point.empty()) {
        out.set("hold_point", finding.hold_point).set("when", finding.at_giving ? "given" : "held");
    }
    if (!finding.place.file.empty()) {
        out.set("at", finding.place.file + ":" + std::to_string(finding.place.line) + ":" + std::to_string(finding.place.column));
    }
    Json blame = Json::array();
    for (const std::string& one : finding.blame) {
        blame.items.emplace_back(one);
    }
    out.set("because", std::move(blame));
    if (finding.history.is(canon::Type::Object)) {
        out.set("history", finding.history);
    }
    return out;
}

// P8 in words: nobody alone, what two can be given, what needs more.
void tellPeople(const rules::Proof& proof)
{
    std::map<int, QStringList> by_count;
    for (const rules::Enough& one : proof.enough) {
        by_count[one.people].push_back(QString::fromStdString(one.hold_point));
    }
    if (!proof.enough.empty() && !by_count.contains(1)) {
        say(Tr::tr("One person alone can be given no release: proven."));
    }
    for (const auto& [count, hold_points] : by_count) {
        const QString which = hold_points.join(QStringLiteral(", "));
        //: %1 a number of people, %2 hold points
        say(count == 0 ? Tr::tr("Not even six people can be given: %1").arg(which)
                       : Tr::tr("%1 people can be given: %2").arg(count).arg(which));
    }
}

int tellProof(const Options& options, const rules::Pack& pack, const rules::Proof& proof, const std::string& compared)
{
    if (options.json) {
        Json findings = Json::array();
        for (const rules::Finding& finding : proof.findings) {
            findings.items.push_back(findingJson(finding));
        }
        Json shortest = Json::array();
        for (const rules::Shortest& one : proof.shortest) {
            Json row = Json::object();
            row.set("hold_point", one.hold_point).set("records", static_cast<std::int64_t>(one.steps.size())).set("history", one.history);
            shortest.items.push_back(std::move(row));
        }
        Json out = Json::object();
        out.set("pack", pack.id).set("version", pack.version).set("proven", Json::boolean(proof.findings.empty()));
        out.set("compared_with", compared).set("claims", static_cast<std::int64_t>(proof.claims));
        out.set("conditions", static_cast<std::int64_t>(proof.conditions)).set("questions", static_cast<std::int64_t>(proof.questions));
        Json people = Json::object();
        for (const rules::Enough& one : proof.enough) {
            people.set(one.hold_point, one.people);
        }
        out.set("people", std::move(people)).set("findings", std::move(findings)).set("shortest", std::move(shortest));
        options.print(out);
    } else {
        for (const rules::Finding& finding : proof.findings) {
            warn(text::finding(finding, pack));
            if (finding.history.is(canon::Type::Object)) {
                say(QString::fromStdString(canon::write(finding.history, true)));
            }
        }
        for (const rules::Shortest& one : proof.shortest) {
            say(Tr::tr("%1: at least %2 records.").arg(QString::fromStdString(one.hold_point)).arg(one.steps.size()));
        }
        say(compared.empty() ? Tr::tr("No pack of this name is installed; nothing to compare with.")
                             : Tr::tr("Compared with the installed pack %1.").arg(QString::fromStdString(compared)));
        tellPeople(proof);
        say(Tr::tr("%1 %2: %3 claims, %4 conditions that matter; %5 findings.")
                .arg(QString::fromStdString(pack.id))
                .arg(pack.version)
                .arg(proof.claims)
                .arg(proof.conditions)
                .arg(proof.findings.size()));
    }
    return proof.findings.empty() ? kYes : kNo;
}

int provePack(const Options& options, const std::string& name)
{
    int failed = kYes;
    const auto loaded_pack = loadNamed(options, name, failed);
    if (!loaded_pack) {
        return failed;
    }
    const auto& [sources, pack] = *loaded_pack;
    const auto claims = rules::loadClaims(sources.base, pack);
    if (!claims) {
        return failPack(options, claims.error());
    }
    // The installed pack of that name, with the claims that it was held to.
    rules::Against against;
    std::optional<rules::Pack> installed;
    for (const rules::PackSource& shipped : rules::shippedPacks()) {
        if (shipped.id != pack.id) {
            continue;
        }
        if (auto loaded = rules::load(shipped, {})) {
            installed = std::move(*loaded);
            against.pack = &*installed;
            if (rules::manifestHash(shipped) == rules::manifestHash(sources.base)) {
                break; // its claims are the pack's own
            }
            auto held_to = rules::loadClaims(shipped, pack);
            if (!held_to) { // it speaks of what is there no more
                return failPack(options, held_to.error());
            }
            against.claims = std::move(*held_to);
        }
    }
    return tellProof(options, pack, rules::prove(pack, *claims, against), installed ? installed->id : std::string());
}

// One line a rule: hold point, list, id, expression.
int celOf(const Options& options, const std::string& name)
{
    int failed = kYes;
    const auto loaded_pack = loadNamed(options, name, failed);
    if (!loaded_pack) {
        return failed;
    }
    const auto& [sources, pack] = *loaded_pack;
    Json all = Json::array();
    for (const rules::HoldPoint& hold_point : pack.hold_points) {
        for (const auto& [list, its_rules] : {std::pair{"at_giving", &hold_point.at_giving}, std::pair{"require", &hold_point.require},
                 std::pair{"stop", &hold_point.stop}}) {
            for (const rules::Rule& rule : *its_rules) {
                const std::string cel = rules::asCel(pack, rule.condition);
                if (!options.json) {
                    say(QString::fromStdString(hold_point.id + '\t' + list + '\t' + rule.id + '\t' + cel));
                    continue;
                }
                Json one = Json::object();
                one.set("hold_point", hold_point.id).set("list", list).set("rule", rule.id).set("cel", cel);
                all.items.push_back(std::move(one));
            }
        }
    }
    if (!options.json) {
        return kYes;
    }
    Json out = Json::object();
    out.set("pack", pack.id).set("version", pack.version).set("hash", canon::toHex(pack.together())).set("rules", std::move(all));
    return options.print(out);
}

struct BookArguments {
    std::string name{"base"}, law, since, html, pdf;
};

// An older version: a folder, a carried pack's name, or a file that a yard keeps of its rules.
std::optional<rules::PackSource> olderPack(const std::string& name)
{
    if (std::filesystem::is_regular_file(name)) {
        return rules::packOfText(slurp(name).value_or(std::string()));
    }
    return packNamed(name);
}

bool writeText(const std::string& path, const QString& text)
{
    QFile file(QString::fromStdString(path));
    return file.open(QIODevice::WriteOnly) && file.write(text.toUtf8()) >= 0 && file.flush();
}

int bookOf(const Options& options, const BookArguments& a)
{
    int failed = kYes;
    auto sources = together(options, a.name, failed);
    if (!sources) {
        return failed;
    }
    if (!a.law.empty()) {
        const auto ruling = rules::carriedRuling(lawOf(a.law));
        if (!ruling || !sources->overlays.empty()) {
            report::Refusal refusal;
            refusal.why = report::Why::UnknownPack;
            refusal.found = a.law;
            return options.fail(refusal);
        }
        sources->overlays = ruling->overlays;
    }
    const auto pack = rules::load(sources->base, sources->overlays);
    if (!pack) {
        return failPack(options, pack.error());
    }
    const auto claims = rules::loadClaims(sources->base, *pack);
    if (!claims) {
        return failPack(options, claims.error());
    }
    print::Book book{&*pack, *claims, std::nullopt, options.reading()};
    std::optional<rules::Pack> before;
    if (!a.since.empty()) {
        const auto older = olderPack(a.since);
        if (!older) {
            report::Refusal refusal;
            refusal.why = report::Why::UnknownPack;
            refusal.found = a.since;
            return options.fail(refusal);
        }
        auto loaded = rules::load(*older, sources->overlays);
        if (!loaded) {
            return failPack(options, loaded.error());
        }
        before = std::move(*loaded);
        book.since = print::Since{&*before, QString::fromStdString(before->id) + QLatin1Char(' ') + QString::number(before->version),
            rules::newlyGranted(*pack, *before, true), rules::newlyGranted(*before, *pack, true)};
    }
    const bool written =
        (a.pdf.empty() || print::writeBookPdf(a.pdf, book)) && (a.html.empty() || writeText(a.html, print::bookHtml(book)));
    if (!written) {
        report::Refusal refusal;
        refusal.why = report::Why::NoPermission;
        refusal.path = a.pdf.empty() ? a.html : a.pdf;
        return options.fail(refusal);
    }
    if (a.pdf.empty() && a.html.empty()) {
        say(print::bookHtml(book));
    } else if (options.json) {
        Json out = Json::object();
        out.set("pack", pack->id).set("version", pack->version).set("hash", canon::toHex(pack->together()));
        return options.print(out);
    }
    return kYes;
}

} // namespace

void addPackCommands(CLI::App& rules, Options& options, Run& run)
{
    auto name = std::make_shared<std::string>("base");
    CLI::App* check = rules.add_subcommand("check", "load a pack and say every error");
    check->add_option("pack", *name, "a shipped pack's name or a folder");
    check->callback([&options, &run, name] { run = [&options, name] { return checkPack(options, *name); }; });
    CLI::App* prove = rules.add_subcommand("prove", "prove what a pack can never grant, and compare it with the installed one");
    prove->add_option("pack", *name, "a shipped pack's name or a folder");
    prove->callback([&options, &run, name] { run = [&options, name] { return provePack(options, *name); }; });
    CLI::App* cel = rules.add_subcommand("cel", "every rule in the Common Expression Language");
    cel->add_option("pack", *name, "a shipped pack's name or a folder");
    cel->callback([&options, &run, name] { run = [&options, name] { return celOf(options, *name); }; });
    auto a = std::make_shared<BookArguments>();
    CLI::App* book = rules.add_subcommand("book", "a pack as a document to read and to sign; HTML unless a file is named");
    book->add_option("pack", a->name, "a shipped pack's name or a folder");
    book->add_option("--law", a->law, "us, uk, eu, au, ca, or all of them: tightened by it");
    book->add_option("--since", a->since, "folder or file of an older version: what changed");
    book->add_option("--html", a->html, "write a page");
    book->add_option("--pdf", a->pdf, "write A4");
    book->callback([&options, &run, a] { run = [&options, a] { return bookOf(options, *a); }; });
}

} // namespace brimful::cli
