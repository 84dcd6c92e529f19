#include "app/tablet/papers.h"

#include "app/print/plans.h"

#include <QCoreApplication>
#include <QStandardPaths>

namespace brimful::tablet {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(brimful::tablet::Papers)
};

} // namespace

QString savePapers(const std::string& figure, const std::string& vessel, const figure::Result& result, const text::Reading& reading)
{
    const auto paper = reading.units == text::Units::Us ? print::Paper::Letter : print::Paper::A4;
    const std::filesystem::path folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation).toStdString();
    std::error_code ignored; // the write says what is wrong
    std::filesystem::create_directories(folder, ignored);
    const QString part = QString::fromStdString(vessel);
    const auto saved = [](const std::filesystem::path& file) { return Tr::tr("Saved as %1.").arg(QString::fromStdString(file.string())); };
    QStringList said;
    const auto fault = [&](print::PageFault what) {
        said << (what == print::PageFault::NothingToDraw      ? Tr::tr("There is no flat pattern: tape and string mark it.")
                : what == print::PageFault::TooMuchForOnePage ? Tr::tr("There are more marks than one page holds.")
                                                              : Tr::tr("Could not be saved."));
    };
    if (figure == "mark-out") {
        const std::filesystem::path file = folder / (vessel + "-marks.pdf");
        const auto written = print::writeMarkOutPdf(file, {part, result}, paper);
        if (written) {
            said << saved(file);
        } else {
            fault(written.error());
        }
    }
    const std::filesystem::path file = folder / (vessel + "-" + figure + ".pdf");
    const auto pages = print::writeTemplatePdf(file, print::templatePage(figure, part, result), paper);
    if (pages) {
        said << saved(file);
    } else {
        fault(pages.error());
    }
    return said.join(QLatin1Char(' '));
}

} // namespace brimful::tablet
