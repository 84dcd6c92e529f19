// The demo yard, played once for this program and copied for each test that writes in it.
#pragma once

#include <QString>
#include <QTemporaryDir>

#include <filesystem>
#include <memory>

namespace brimful::test {

class DemoYard {
public:
    DemoYard();
    [[nodiscard]] std::filesystem::path folder() const { return m_folder; }
    // PIN of a person of the demo, as its scenario file says.
    [[nodiscard]] static QString pin(const QString& person);

private:
    QTemporaryDir m_dir;
    std::filesystem::path m_folder;
};

} // namespace brimful::test
