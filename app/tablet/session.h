// The yard that this tablet has open, its clock, and how its person reads numbers. Plain C++: pages ask it, tests feed it.
#pragma once

#include "app/text/words.h"
#include "core/yard/clocks.h"
#include "core/yard/yard.h"

#include <filesystem>
#include <memory>
#include <optional>

namespace brimful::tablet {

// $BRIMFUL_YARD, else the platform's data folder.
[[nodiscard]] std::filesystem::path defaultYard();

class Session {
public:
    // `clock` absent: the machine's. A scripted one makes only yards that play.
    explicit Session(std::filesystem::path folder, std::unique_ptr<ledger::Clock> clock = nullptr);

    [[nodiscard]] const std::filesystem::path& folder() const { return m_folder; }
    [[nodiscard]] bool isOpen() const { return m_yard.has_value(); }
    [[nodiscard]] yard::Yard& yard() { return *m_yard; }
    [[nodiscard]] const rules::Pack& pack() const { return m_yard->pack(); }
    [[nodiscard]] const ledger::Clock& clock() const { return *m_clock; }

    [[nodiscard]] yard::Outcome<void> open(); // the folder as it is
    [[nodiscard]] yard::Outcome<void> openAt(const std::filesystem::path& folder);
    [[nodiscard]] yard::Outcome<yard::Created> create(const yard::CreateRequest&);
    [[nodiscard]] yard::Outcome<void> makeDemo(const std::filesystem::path& folder);
    void close() { m_yard.reset(); }

    // Settings of this tablet; they live with the device, or in memory while there is none.
    void setUnits(text::Units);
    [[nodiscard]] std::string setting(const std::string& key);
    void putSetting(const std::string& key, const std::string& text);

    text::Reading reading;

private:
    void readSettings();
    std::filesystem::path m_folder;
    std::unique_ptr<ledger::Clock> m_clock;
    std::optional<yard::Yard> m_yard;
};

} // namespace brimful::tablet
