#include "tests/core/yard/played_yard.h"

#include <QTest>

namespace brimful::test {

yard::Yard Crew::open()
{
    const auto created = yard::Yard::create(yardFolder(), {"Test yard", ada.person, ada.pin, "tablet", true, "us"}, clock);
    if (!created) {
        qFatal("no yard: %s", std::string(report::whyWord(created.error().why)).c_str());
    }
    yard::Yard yard = reopen();
    if (!yard.grant("Ada", {"supervisor", "tester", "watch"}, ada)
        || !yard.addPerson({"Tam", tam.pin, {"operator", "hand"}, std::nullopt}, ada)
        || !yard.addInstrument(
            {"M-1", "gas-meter",
                {{"sensor", "catalytic"}, {"calibrated_on", "methane"}, {"response_factor", "1.62"}, {"limit_basis", "2.1 %"}},
                kStart + 90LL * 86'400'000},
            ada)) {
        qFatal("no crew");
    }
    return yard;
}

yard::Yard Crew::reopen(yard::Access access)
{
    auto opened = yard::Yard::open(yardFolder(), access, clock);
    if (!opened) {
        qFatal("not opened: %s", std::string(report::whyWord(opened.error().why)).c_str());
    }
    return std::move(*opened);
}

canon::Json demoScenario()
{
    const auto scenario = canon::read(rules::shippedFile("demo/ness-quay.json"), canon::Dialect::Subset);
    return scenario ? *scenario : canon::Json();
}

void makeDemo(const std::filesystem::path& folder)
{
    const auto played = yard::makeDemo(folder);
    if (!played) {
        qFatal("no demo: %s %s %s", std::string(report::whyWord(played.error().why)).c_str(), played.error().path.c_str(),
            played.error().found.c_str());
    }
}

canon::Json json(const char* text)
{
    const auto value = canon::read(text, canon::Dialect::Any);
    if (!value) {
        qFatal("bad JSON in a test: %s", text);
    }
    return *value;
}

} // namespace brimful::test
