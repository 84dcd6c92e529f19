// Scanners that type: a burst of keys faster than any hand, closed by Enter, is caught before any field sees it.
#pragma once

#include <QElapsedTimer>
#include <QKeyEvent>
#include <QObject>
#include <QPointer>
#include <QTimer>

#include <memory>
#include <vector>

namespace brimful::tablet {

// Keys are held back for as long as a scanner leaves between two of them, then given on as they came.
class Scanner : public QObject {
    Q_OBJECT

public:
    explicit Scanner(QObject* window);

Q_SIGNALS:
    void scanned(const QString& text);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    bool pressed(const QKeyEvent& key);
    void hold(const QKeyEvent& key);
    void giveOn();

    QPointer<QObject> m_window;
    std::vector<std::unique_ptr<QKeyEvent>> m_held;
    QString m_text;
    QTimer m_wait;
    bool m_giving{};
    bool m_enter_taken{}; // its release is to come
};

} // namespace brimful::tablet
