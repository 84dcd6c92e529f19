// Every screen of the program, each with the way that leads to it.
#pragma once

#include "tests/qml/looking.h"

#include <span>

namespace brimful::test {

// The demo yard; no yard yet; one that another tablet has open; the demo's with a clock that a scene puts forward
enum class On : std::uint8_t { Demo, Nothing, Taken, Turned };

struct Scene {
    const char* name;
    void (*go)(tablet::Tablet&);
    On on{On::Demo};
};

[[nodiscard]] std::span<const Scene> scenes();
[[nodiscard]] const Scene& sceneOf(const QString& name); // of one that there is

// A scene as it is shown, with what it stands on.
class Stage {
public:
    // `turning`: of the demo, with a clock that runOut puts forward
    [[nodiscard]] static std::unique_ptr<Stage> of(const Scene& scene, const QSize& size, bool turning = false);
    void runOut(); // the time of the work that is released is over
    [[nodiscard]] Shown& shown() { return *m_shown; }

private:
    QTemporaryDir m_dir;
    std::unique_ptr<DemoYard> m_taken;
    std::unique_ptr<tablet::Tablet> m_first; // closed after the one that is looked at
    std::unique_ptr<Shown> m_shown;
};

} // namespace brimful::test
