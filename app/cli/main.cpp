// brimful: the command line. What it can do the tablet can, through the same core.
#include "app/cli/commands.h"

#include "app/print/paint.h"

#include <QGuiApplication>
#include <QStandardPaths>
#include <QTranslator>

#include <iostream>

namespace {

namespace cli = brimful::cli;

std::filesystem::path defaultYard()
{
    const QByteArray named = qgetenv("BRIMFUL_YARD");
    if (!named.isEmpty()) {
        return named.toStdString();
    }
    return (QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + QStringLiteral("/brimful/yard")).toStdString();
}

// No runtime folder is needed, so a machine without one need not hear of it on standard error.
void withoutRuntimeFolder(QtMsgType /*type*/, const QMessageLogContext& /*context*/, const QString& message)
{
    if (!message.startsWith(QStringLiteral("QStandardPaths:"))) {
        cli::warn(message);
    }
}

} // namespace

int main(int argc, char** argv)
{
    using namespace brimful;
    // Paper is painted without a display.
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qInstallMessageHandler(withoutRuntimeFolder);
    QGuiApplication qt(argc, argv);
    QCoreApplication::setApplicationName(QStringLiteral("brimful"));

    cli::Options options;
    options.yard_folder = defaultYard();
    CLI::App app{"What was proven of a vessel before it is cut: by whom, how, until when."};
    app.set_version_flag("--version", std::string("brimful ") + BRIMFUL_VERSION);
    app.add_option("--yard", options.yard_folder, "folder of the yard (default: $BRIMFUL_YARD)");
    app.add_option("--at", options.at, "UTC time to judge at, for questions only: 2026-06-14T08:00Z");
    app.add_option("--lang", options.language, "language of the text answers");
    app.add_flag("--json", options.json, "answers for machines");
    app.add_flag("--pin-stdin", options.pin_stdin, "PINs on standard input, one line for each signer");
    app.require_subcommand(1);
    app.fallthrough();

    cli::Run run;
    cli::addYardCommands(app, options, run);
    cli::addVesselCommands(app, options, run);
    cli::addAskCommands(app, options, run);
    cli::addTagCommands(app, options, run);
    cli::addKeyCommands(app, options, run);
    cli::addFigureCommands(app, options, run);
    cli::addTemplateCommand(app, options, run);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {
            return app.exit(error);
        }
        if (QCoreApplication::arguments().contains(QStringLiteral("--json"))) {
            canon::Json bad = canon::Json::object();
            bad.set("code", "bad-call").set("path", "").set("expected", "").set("found", error.what());
            return options.failJson(bad, cli::kInput);
        }
        app.exit(error, std::cout, std::cerr);
        return cli::kInput;
    }
    QTranslator plurals;
    if (plurals.load(QStringLiteral(":/translations/brimful_en.qm"))) {
        QCoreApplication::installTranslator(&plurals);
    }
    QTranslator translator;
    if (!options.language.empty()
        && translator.load(QStringLiteral(":/translations/brimful_") + QString::fromStdString(options.language))) {
        QCoreApplication::installTranslator(&translator);
    }
    if (!options.at.empty() && !options.asIf()) {
        report::Refusal refusal;
        refusal.why = report::Why::BadTime;
        refusal.path = "--at";
        refusal.found = options.at;
        return options.fail(refusal);
    }
    return run ? run() : static_cast<int>(cli::kInput);
}
