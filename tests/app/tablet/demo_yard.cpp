#include "tests/app/tablet/demo_yard.h"

#include "core/rules/pack.h"
#include "core/yard/play.h"

#include <QDebug>

namespace brimful::test {

namespace {

const std::filesystem::path& played()
{
    static QTemporaryDir dir;
    static const std::filesystem::path folder = [] {
        const std::filesystem::path made = std::filesystem::path(dir.path().toStdString()) / "demo";
        const auto outcome = yard::makeDemo(made);
        if (!outcome) {
            qFatal("the demo yard could not be played: %s %s %s", std::string(report::whyWord(outcome.error().why)).c_str(),
                outcome.error().path.c_str(), outcome.error().found.c_str());
        }
        return made;
    }();
    return folder;
}

} // namespace

DemoYard::DemoYard()
    : m_folder(std::filesystem::path(m_dir.path().toStdString()) / "yard")
{
    std::filesystem::copy(played(), m_folder, std::filesystem::copy_options::recursive);
}

QString DemoYard::pin(const QString& person)
{
    const auto scenario = canon::read(rules::shippedFile("demo/ness-quay.json"), canon::Dialect::Subset);
    for (const canon::Json& one : scenario->find("yard")->find("people")->items) {
        if (QString::fromStdString(std::string(one.textOf("name"))) == person) {
            return QString::fromStdString(std::string(one.textOf("pin")));
        }
    }
    return {};
}

} // namespace brimful::test
