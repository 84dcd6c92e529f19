#include "app/tablet/session.h"

#include "app/print/photograph.h"
#include "core/yard/play.h"

#include <QDateTime>
#include <QStandardPaths>

namespace brimful::tablet {

std::filesystem::path defaultYard()
{
    if (const QByteArray named = qgetenv("BRIMFUL_YARD"); !named.isEmpty()) {
        return named.toStdString();
    }
    const QString data = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
    return std::filesystem::path(data.toStdString()) / "brimful" / "yard";
}

Session::Session(std::filesystem::path folder, std::unique_ptr<ledger::Clock> clock)
    : m_folder(std::move(folder))
    , m_clock(clock ? std::move(clock) : yard::systemClock())
{
    reading.offset_minutes = QDateTime::currentDateTime().offsetFromUtc() / 60;
}

yard::Outcome<void> Session::open() { return openAt(m_folder); }

yard::Outcome<void> Session::openAt(const std::filesystem::path& folder)
{
    m_yard.reset(); // gives the tablet's lock back first
    auto opened = yard::Yard::open(folder, yard::Access::Tablet, *m_clock);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    m_folder = folder;
    m_yard.emplace(std::move(*opened));
    m_yard->setPictures(print::barePhotograph);
    readSettings();
    return {};
}

yard::Outcome<yard::Created> Session::create(const yard::CreateRequest& request)
{
    auto created = yard::Yard::create(m_folder, request, *m_clock);
    if (!created) {
        return created;
    }
    if (auto opened = open(); !opened) {
        return tl::unexpected(opened.error());
    }
    return created;
}

yard::Outcome<void> Session::makeDemo(const std::filesystem::path& folder)
{
    m_yard.reset();
    if (auto made = yard::makeDemo(folder); !made) {
        return tl::unexpected(made.error());
    }
    return openAt(folder);
}

void Session::setUnits(text::Units units)
{
    reading.units = units;
    putSetting("units", units == text::Units::Us ? "us" : "si");
}

std::string Session::setting(const std::string& key)
{
    people::Device* device = m_yard ? m_yard->device() : nullptr;
    return device == nullptr ? std::string() : device->setting(key).value_or(std::string());
}

void Session::putSetting(const std::string& key, const std::string& text)
{
    if (people::Device* device = m_yard ? m_yard->device() : nullptr; device != nullptr) {
        // A setting that cannot be kept is only a wish lost: the fault itself shows at the next entry.
        static_cast<void>(device->putSetting(key, text));
    }
}

void Session::readSettings()
{
    if (setting("units") == "si") {
        reading.units = text::Units::Si;
    } else if (setting("units") == "us") {
        reading.units = text::Units::Us;
    }
}

} // namespace brimful::tablet
