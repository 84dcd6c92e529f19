// template: a figure's patterns at full size, on paper, as DXF, as SVG.
#include "app/cli/commands.h"
#include "app/print/plans.h"
#include "core/figure/reference.h"
#include "core/quantity/parse.h"

#include <QCoreApplication>
#include <QFile>

#include <algorithm>

namespace brimful::cli {

namespace {

using canon::Json;

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

struct Arguments {
    std::string name, file{"-"}, pdf, dxf, svg, sheet, paper{"a4"}, roll_width{"610 mm"}, pattern, part;
};

int cannotWrite(const Options& options, const std::string& file)
{
    Json error = Json::object();
    error.set("code", "cannot-write").set("path", file).set("expected", "").set("found", "");
    if (options.json) {
        return options.failJson(error, kMachine);
    }
    warn(Tr::tr("%1 could not be written.").arg(QString::fromStdString(file)));
    return kMachine;
}

bool spill(const std::string& file, const std::string& bytes)
{
    QFile out(QString::fromStdString(file));
    return out.open(QIODevice::WriteOnly) && out.write(bytes.data(), static_cast<qint64>(bytes.size())) == static_cast<qint64>(bytes.size())
        && out.flush();
}

std::optional<print::Paper> paperNamed(const std::string& name)
{
    constexpr std::pair<const char*, print::Paper> kPapers[] = {
        {"a4", print::Paper::A4}, {"a3", print::Paper::A3}, {"letter", print::Paper::Letter}, {"roll", print::Paper::Roll}};
    for (const auto& [word, paper] : kPapers) {
        if (name == word) {
            return paper;
        }
    }
    return std::nullopt;
}

int write(const Options& options, const Arguments& a, const print::TemplatePage& page, print::Paper paper, double roll_mm)
{
    Json out = Json::object();
    Json names = Json::array();
    for (const print::Pattern& pattern : page.patterns) {
        names.items.emplace_back(pattern.name.toStdString());
    }
    out.set("patterns", std::move(names));
    if (!a.pdf.empty()) {
        const auto pages = print::writeTemplatePdf(a.pdf, page, paper, roll_mm);
        if (!pages) {
            return cannotWrite(options, a.pdf);
        }
        out.set("pdf", a.pdf).set("pages", *pages);
    }
    if (!a.dxf.empty() && !spill(a.dxf, print::patternDxf(page.patterns))) {
        return cannotWrite(options, a.dxf);
    }
    if (!a.svg.empty() && !spill(a.svg, print::patternSvg(page.patterns))) {
        return cannotWrite(options, a.svg);
    }
    for (const auto& [key, file] : {std::pair("dxf", a.dxf), std::pair("svg", a.svg), std::pair("sheet", a.sheet)}) {
        if (!file.empty()) {
            out.set(key, file);
        }
    }
    return options.print(out);
}

int runTemplate(const Options& options, const Arguments& a)
{
    const figure::Figure* const figure = figure::byName(a.name);
    if (figure == nullptr) {
        return options.failInput("unknown-figure", "figure", {}, a.name,
            Tr::tr("No figure is called \"%1\"; see figure --list.").arg(QString::fromStdString(a.name)));
    }
    const auto paper = paperNamed(a.paper);
    const auto width = quantity::parse(a.roll_width, quantity::Dimension::Length);
    if (!paper || !width || !(width->si >= 0.2 && width->si <= 2)) {
        const bool which = !paper;
        return options.failInput(which ? "unknown-choice" : "out-of-range", which ? "--paper" : "--roll-width",
            which ? "a4, a3, letter, roll" : "0.2 m to 2 m", which ? a.paper : a.roll_width,
            which ? Tr::tr("The paper is a4, a3, letter or roll.") : Tr::tr("A roll is 0.2 m to 2 m wide."));
    }
    const bool patterns = !a.pdf.empty() || !a.dxf.empty() || !a.svg.empty();
    if (!patterns && a.sheet.empty()) {
        return options.failInput(
            "missing", "--pdf", "--pdf, --dxf, --svg, --sheet", "", Tr::tr("Say where to write: --pdf, --dxf, --svg or --sheet."));
    }
    if (!a.sheet.empty() && (a.name != "mark-out" || *paper == print::Paper::Roll)) {
        const bool which = a.name != "mark-out";
        return options.failInput(which ? "impossible" : "unknown-choice", which ? "figure" : "--paper",
            which ? "mark-out" : "a4, a3, letter", which ? a.name : a.paper,
            Tr::tr("The sheet of marks is of a mark-out, on a4, a3 or letter."));
    }
    const auto input = readJson(options, a.file, canon::Dialect::Any);
    if (!input) {
        return kInput;
    }
    const auto result = figure::compute(*figure, *input, {});
    if (!result) {
        return failFigure(options, result.error());
    }
    print::TemplatePage page = print::templatePage(a.name, QString::fromStdString(a.part), *result);
    if (!a.pattern.empty()) {
        std::erase_if(page.patterns, [&](const print::Pattern& one) { return one.name.toStdString() != a.pattern; });
    }
    if (page.patterns.empty() && patterns) {
        return options.failInput("impossible", a.pattern.empty() ? "figure" : "--pattern", "a figure with a pattern that can be laid flat",
            a.pattern.empty() ? a.name : a.pattern,
            Tr::tr("There is no flat pattern: what lies on a round head is marked with tape and string."));
    }
    if (!a.sheet.empty()) {
        const auto sheet = print::writeMarkOutPdf(a.sheet, {page.part, *result}, *paper);
        if (!sheet && sheet.error() == print::PageFault::TooMuchForOnePage) {
            return options.failInput("impossible", "features", "as many marks as one page holds", a.paper,
                Tr::tr("There are more marks than one page holds: take larger paper or lay out fewer at a time."));
        }
        if (!sheet) {
            return cannotWrite(options, a.sheet);
        }
    }
    return write(options, a, page, *paper, width->si * 1000);
}

} // namespace

void addTemplateCommand(CLI::App& app, Options& options, Run& run)
{
    auto a = std::make_shared<Arguments>();
    CLI::App* command = app.add_subcommand("template", "a figure's patterns at full size");
    command->add_option("name", a->name)->required();
    command->add_option("file", a->file, "input; - for standard input");
    command->add_option("--pdf", a->pdf, "sheets to print, lay together and wrap");
    command->add_option("--paper", a->paper, "a4, a3, letter or roll");
    command->add_option("--roll-width", a->roll_width, "of the roll, with its unit");
    command->add_option("--dxf", a->dxf, "for a cutting table");
    command->add_option("--svg", a->svg);
    command->add_option("--sheet", a->sheet, "of a mark-out: one page with every mark, the order of work and cautions");
    command->add_option("--pattern", a->pattern, "one of the patterns only");
    command->add_option("--part", a->part, "what it is for, as the shop calls it; on every sheet");
    command->callback([&options, &run, a] { run = [&options, a] { return runTemplate(options, *a); }; });
}

} // namespace brimful::cli
