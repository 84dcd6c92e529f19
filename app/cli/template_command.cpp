// template: a figure's patterns at full size, on paper, as DXF, as SVG.
#include "app/cli/commands.h"
#include "app/print/plans.h"
#include "core/figure/reference.h"
#include "core/quantity/format.h"
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

// "123.4 mm (4 7/8 in)"
QString both(double metres)
{
    return QStringLiteral("%1 mm (%2)")
        .arg(metres * 1000, 0, 'f', 1)
        .arg(QString::fromStdString(quantity::inchFraction(quantity::metres(metres))));
}

QStringList factsOf(const figure::Result& result)
{
    QStringList out;
    const auto length = [&](const char* key, const QString& words) {
        if (const Json* const value = result.values.find(key); value != nullptr) {
            out << words.arg(both(value->number));
        }
    };
    //: on a full-size pattern; %1 is a length
    length("ring_from_long_point_m", Tr::tr("Draw a ring square round the pipe, %1 from its square end."));
    //: on a full-size pattern; %1 is a length
    length("wrap_girth_m", Tr::tr("Girth of the pattern: %1. It must meet itself; if not, the pipe is another."));
    //: on a full-size pattern; %1 is a length
    length("depth_m", Tr::tr("Depth of the cut: %1"));
    const Json* const along = result.values.find("pierce_along_m");
    const Json* const around = result.values.find("pierce_girth_m");
    if (along != nullptr && around != nullptr) {
        //: on a full-size pattern; %1 and %2 are lengths
        out << Tr::tr("Hole: its cross lies %1 along from where the axes cross, %2 round from the line on top, to the left.")
                   .arg(both(along->number), both(around->number));
    }
    //: on a full-size pattern; %1 is a length
    length("girth_m", Tr::tr("Girth of the shell: %1"));
    if (result.values.find("ordinates") != nullptr) {
        out << Tr::tr("Number 0 lies on the side to which the pipe leans or stands off; numbers run to the right, seen from outside.");
    }
    if (result.values.find("around") != nullptr) {
        out << Tr::tr("Hold a pattern so that its words stand upright: the vessel's left end is to the left.");
    }
    if (const Json* const order = result.values.find("order"); order != nullptr) {
        for (const Json& one : order->items) {
            out << print::workWords(one.textOf("do"), QString::fromStdString(std::string(one.textOf("feature"))));
        }
    }
    for (const std::string& warning : result.warnings) {
        out << text::warning(warning);
    }
    return out;
}

// Both running lists of a mark-out, the one round the shell first.
void addMarks(const figure::Result& result, std::vector<QStringList>& out)
{
    for (const auto& [key, head] :
        {std::pair("around", Tr::tr("Round from the datum line")), std::pair("along", Tr::tr("Along from the left tangent line"))}) {
        const Json* const marks = result.values.find(key);
        if (marks == nullptr) {
            continue;
        }
        out.push_back({QString(), head, QString()});
        for (const Json& mark : marks->items) {
            out.push_back({QString(),
                QString::fromStdString(std::string(mark.textOf("feature"))) + QStringLiteral(", ") + print::edgeWords(mark.textOf("edge")),
                both(mark.find("exact_m")->number)});
        }
    }
}

std::vector<QStringList> tableOf(const figure::Result& result)
{
    std::vector<QStringList> out;
    if (result.values.find("around") != nullptr) {
        out.push_back({QString(), Tr::tr("Mark"), Tr::tr("Tape")});
        addMarks(result, out);
        return out;
    }
    const Json* const ordinates = result.values.find("ordinates");
    if (ordinates == nullptr) {
        return out;
    }
    //: heads of a table of ordinates: number, along the girth, cut
    out.push_back({Tr::tr("No."), Tr::tr("Round the pipe"), Tr::tr("Back from the longest point")});
    const Json* const beyond = result.values.find("long_point_beyond_m");
    const double longest = beyond == nullptr ? 0 : beyond->number;
    for (std::size_t i = 0; i < ordinates->items.size(); ++i) {
        out.push_back({QString::number(i), both(ordinates->items[i].find("arc_m")->number),
            both(ordinates->items[i].find("cut_m")->number + longest)});
    }
    return out;
}

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
    print::TemplatePage page;
    page.title = text::figureName(a.name);
    page.part = QString::fromStdString(a.part);
    page.facts = factsOf(*result);
    page.table = tableOf(*result);
    page.patterns = print::patternsOf(*result);
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
