// A gloved hand on the glass. It touches what it can see, by the name that a reader would say, scrolls where it must, and counts
// what it did. It never calls the program: only touches go in.
#pragma once

#include "tests/qml/looking.h"

namespace brimful::test {

class Hand {
public:
    explicit Hand(Shown& shown);

    // Each is false where no control of that name can be seen; missing() then says which.
    [[nodiscard]] bool touch(const QString& name);
    [[nodiscard]] bool hold(const QString& name); // 1.5 s and a little
    [[nodiscard]] bool write(const QString& text); // on the keys of the glass
    [[nodiscard]] bool number(const QString& typed); // "30.25 in" on the pad, with its unit
    [[nodiscard]] bool digits(const QString& pin);
    [[nodiscard]] bool sees(const QString& name);

    [[nodiscard]] int acts() const { return m_acts; } // touches that are no keys
    [[nodiscard]] int keys() const { return m_keys; }
    [[nodiscard]] QString missing() const { return m_missing; }

private:
    [[nodiscard]] QQuickItem* find(const QString& name) const;
    [[nodiscard]] QQuickItem* reach(const QString& name);
    [[nodiscard]] bool key(const QString& name);
    void tap(const QPoint& at, int ms) const;
    void drag(const QQuickItem* list, double by) const;

    Shown& m_shown;
    int m_acts{}, m_keys{};
    QString m_missing;
};

} // namespace brimful::test
