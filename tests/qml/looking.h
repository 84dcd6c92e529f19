// The main window of a tablet in a test, and what can be found wrong with it by looking: warnings, clipped words, small
// words, small targets, names that a reader would not say.
#pragma once

#include "app/tablet/tablet.h"
#include "tests/app/tablet/demo_yard.h"

#include <QHash>
#include <QQmlApplicationEngine>
#include <QQuickWindow>

#include <memory>

namespace brimful::test {

class Shown {
public:
    explicit Shown(
        const QSize& size = QSize(1280, 800), const std::filesystem::path& folder = {}, std::unique_ptr<ledger::Clock> clock = nullptr);
    ~Shown();
    [[nodiscard]] tablet::Tablet& program() { return *m_tablet; }
    [[nodiscard]] QQuickWindow* window() const { return m_window; }
    void settle() const; // until what changed is drawn
    [[nodiscard]] QStringList warnings() const;

    // What is wrong on the screen as it stands; one line each.
    [[nodiscard]] QStringList flaws() const;
    [[nodiscard]] QStringList turned() const; // what is cut on any page of what pages, or on none of them
    [[nodiscard]] QStringList covered() const; // by the message that is shown, or cut off in it; none shown, or two: that
    [[nodiscard]] QHash<QQuickItem*, QRectF> keys() const; // where each can be touched; of a message none
    [[nodiscard]] QStringList words() const; // every word on the screen, and what a reader would say
    void resize(const QSize& size) const;
    void picture(const QString& name) const; // screens/NAME.png in the build folder
    [[nodiscard]] QQuickItem* named(const QString& accessible_name) const; // a visible item, or null

private:
    std::unique_ptr<DemoYard> m_demo;
    std::unique_ptr<tablet::Tablet> m_tablet;
    std::unique_ptr<QQmlApplicationEngine> m_engine;
    QQuickWindow* m_window{};
};

} // namespace brimful::test
