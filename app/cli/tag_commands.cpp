// tag: print, show, read, lost, on the wrong vessel.
#include "app/cli/acts.h"
#include "app/cli/commands.h"
#include "app/print/pages.h"
#include "core/yard/iso_time.h"

#include <QCoreApplication>

#include <fstream>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string vessel, pdf, label{"100x150"}, by, tag, note;
    bool text{};
    bool again{};
};

print::TagPage pageOf(const report::VesselView& view, const yard::PrintedTag& tag)
{
    const std::string hex = canon::toHex(tag.facts.head);
    return {view, tag.text, tag.code, tag.serial, tag.facts.issued_ms, hex.substr(0, 4) + ".." + hex.substr(62)};
}

int printTag(Options& options, yard::Yard& yard, const Arguments& a)
{
    const std::map<std::string, print::Label> labels{
        {"100x150", print::Label::Mm100x150}, {"a6", print::Label::A6}, {"a4", print::Label::A4Two}};
    const auto label = labels.find(a.label);
    if (label == labels.end()) {
        return options.failInput("unknown-label", "--label", "100x150, a6, a4", a.label,
            Tr::tr("--label: \"%1\" is not among 100x150, a6, a4.").arg(QString::fromStdString(a.label)));
    }
    if (!a.pdf.empty() && !std::ofstream(a.pdf, std::ios::app)) {
        return failPage(options, a.pdf); // before anything is written to the record
    }
    const auto tag = yard.printTag(a.vessel, a.label, options.reading().offset_minutes, a.again);
    if (!tag) {
        return options.fail(tag.error());
    }
    const auto view = yard.vessel(a.vessel);
    if (!view) {
        return options.fail(view.error());
    }
    if (!a.pdf.empty() && !print::writeTagPdf(a.pdf, pageOf(*view, *tag), yard.pack(), options.reading(), label->second, 300)) {
        return failPage(options, a.pdf);
    }
    Json out = Json::object();
    out.set("serial", tag->serial).set("text", tag->text).set("code", tag->code);
    if (options.json) {
        return options.print(out);
    }
    say(a.text ? QString::fromStdString(tag->text)
               : Tr::tr("Tag %1. Short code %2.").arg(tag->serial).arg(QString::fromStdString(tag->code)));
    return kYes;
}

// What the newest tag says: a question, though this machine's key is needed to write its symbol again.
int showTag(Options& options, const Arguments& a)
{
    auto yard = yard::Yard::open(options.yard_folder, yard::Access::ReadWrite, options.clock());
    if (!yard) {
        return options.fail(yard.error());
    }
    const auto view = yard->vessel(a.vessel);
    if (!view) {
        return options.fail(view.error());
    }
    if (!view->newest_tag) {
        return options.failInput("no-tag", "id", "a vessel with a tag", a.vessel,
            Tr::tr("%1: no tag was printed yet. Print one: tag %1 --pdf FILE.").arg(QString::fromStdString(a.vessel)));
    }
    Arguments newest = a;
    newest.again = true;
    return printTag(options, *yard, newest);
}

// What is written there, or in the picture of this name; nothing when the picture has no symbol.
std::optional<std::string> textOf(const std::string& tag)
{
    std::error_code no_file; // a tag's text is too long for a file's name: no error, it is no file
    return std::filesystem::exists(tag, no_file) ? print::readSymbol(tag) : std::optional(tag);
}

int failSymbol(const Options& options, const std::string& file)
{
    return options.failInput("no-symbol", file, "QR", {}, Tr::tr("No symbol was found in %1.").arg(QString::fromStdString(file)));
}

std::optional<yard::Signing> signer(Options& options, const std::string& person)
{
    return person.empty() ? std::nullopt : std::optional<yard::Signing>(options.signing(person));
}

int misplacedTag(Options& options, yard::Yard& yard, const Arguments& a)
{
    const auto text = textOf(a.tag);
    if (!text) {
        return failSymbol(options, a.tag);
    }
    //: note of the stop that is raised
    const QString note = Tr::tr("A tag hung on the wrong vessel: %1.").arg(QString::fromStdString(a.vessel));
    return receipt(options, yard, yard.misplacedTag(*text, a.vessel, note.toStdString(), signer(options, a.by)));
}

int readTag(Options& options, yard::Yard& yard, const Arguments& a)
{
    const auto text = textOf(a.tag);
    if (!text) {
        return failSymbol(options, a.tag);
    }
    const auto answer = a.by.empty() ? yard.readTag(*text) : yard.recordTag(*text, "scan", options.signing(a.by));
    if (!answer) {
        return options.fail(answer.error());
    }
    Json printed = Json();
    if (answer->as_printed) {
        printed = Json::object();
        printed.set("serial", answer->as_printed->serial).set("issued", yard::formatTime(answer->as_printed->issued_ms));
        printed.set("until", answer->as_printed->until_ms == 0 ? Json() : Json(yard::formatTime(answer->as_printed->until_ms)));
        printed.set("head", canon::toHex(answer->as_printed->head));
    }
    Json out = Json::object();
    out.set("genuine", Json::boolean(answer->genuine)).set("vessel", answer->vessel).set("newest", Json::boolean(answer->newest));
    out.set("still_true", Json::boolean(answer->still_true))
        .set("head_known", Json::boolean(answer->head_known))
        .set("lost", Json::boolean(answer->lost))
        .set("as_printed", printed);
    if (options.json) {
        options.print(out);
    } else if (!answer->genuine) {
        say(Tr::tr("Not a genuine tag of this yard. It proves nothing and holds nothing."));
    } else {
        const QString number = QString::fromStdString(answer->vessel);
        say(answer->lost              ? Tr::tr("%1: this tag was told lost. Take it off.").arg(number)
                : !answer->head_known ? Tr::tr("%1: this tag knows an entry that this record does not. Held.").arg(number)
                : !answer->newest
                ? Tr::tr("%1: this tag is number %2 and not the newest. Take it off.").arg(number).arg(answer->as_printed->serial)
                : answer->still_true ? Tr::tr("%1: the newest tag; what it says is still so.").arg(number)
                                     : Tr::tr("%1: the newest tag, but what it says is no longer so. Print a new one.").arg(number));
    }
    return answer->genuine && answer->newest && answer->still_true && answer->head_known ? kYes : kNo;
}

} // namespace

void addTagCommands(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* tag =
        app.add_subcommand("tag", "print or read a status tag: tag ID --pdf FILE, tag read TEXT-or-IMAGE")->require_subcommand(0, 1);
    tag->add_option("id", a->vessel, "vessel's number");
    tag->add_option("--pdf", a->pdf, "write the tag as PDF");
    tag->add_option("--label", a->label, "100x150, a6, a4");
    tag->add_flag("--text", a->text, "show what the newest tag's symbol says; prints none");
    tag->add_flag("--again", a->again, "the newest tag once more: same serial, same bytes");
    CLI::App* read = tag->add_subcommand("read", "is it genuine, newest, still so?");
    read->add_option("tag", a->tag, "text, short code, or a picture file")->required();
    read->add_option("--by", a->by, "also record that it was read");
    read->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, a->by.empty() ? yard::Access::ReadOnly : yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return readTag(options, yard, *a); });
        };
    });
    CLI::App* lost = tag->add_subcommand("lost", "the newest tag is lost: print another; nobody's PIN is needed");
    lost->add_option("id", a->vessel)->required();
    lost->add_option("--note", a->note);
    lost->add_option("--by", a->by);
    lost->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite,
                [&](yard::Yard& yard) { return receipt(options, yard, yard.loseTag(a->vessel, a->note, signer(options, a->by))); });
        };
    });
    CLI::App* misplaced = tag->add_subcommand("misplaced", "a tag hangs on a vessel that is not its own: both are stopped");
    misplaced->add_option("tag", a->tag, "text, short code, or a picture file")->required();
    misplaced->add_option("--on", a->vessel, "number of the vessel that it hangs on")->required();
    misplaced->add_option("--by", a->by);
    misplaced->callback([&options, &run, a] {
        run = [&options, a] {
            return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) { return misplacedTag(options, yard, *a); });
        };
    });
    tag->callback([&options, &run, a, tag] {
        if (tag->get_subcommands().empty()) {
            run = [&options, a] {
                if (a->text && a->pdf.empty()) {
                    return showTag(options, *a);
                }
                return withYard(options, yard::Access::ReadWrite, [&](yard::Yard& yard) { return printTag(options, yard, *a); });
            };
        }
    });
}

} // namespace brimful::cli
