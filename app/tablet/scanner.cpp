#include "app/tablet/scanner.h"

#include <QCoreApplication>

namespace brimful::tablet {

namespace {

constexpr int kBetweenMs = 35; // a fast typist leaves 60 and more; from the design, no source
constexpr qsizetype kShortest = 8; // a short code, a label

bool isEnter(const QKeyEvent& key) { return key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter; }

} // namespace

Scanner::Scanner(QObject* window)
    : QObject(window)
    , m_window(window)
{
    m_wait.setSingleShot(true);
    m_wait.setInterval(kBetweenMs);
    connect(&m_wait, &QTimer::timeout, this, &Scanner::giveOn);
    window->installEventFilter(this);
}

bool Scanner::eventFilter(QObject* watched, QEvent* event)
{
    const bool is_key = event->type() == QEvent::KeyPress || event->type() == QEvent::KeyRelease;
    if (m_giving || watched != m_window || !is_key) {
        return QObject::eventFilter(watched, event);
    }
    const auto& key = *static_cast<QKeyEvent*>(event); // NOLINT(*-static-cast-downcast): its type says so
    if (event->type() == QEvent::KeyPress) {
        return pressed(key);
    }
    if (isEnter(key) && m_enter_taken) {
        m_enter_taken = false;
        return true;
    }
    if (m_held.empty()) {
        return false;
    }
    hold(key);
    return true;
}

bool Scanner::pressed(const QKeyEvent& key)
{
    const bool plain = (key.modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == 0 && !key.isAutoRepeat();
    if (plain && isEnter(key) && m_text.size() >= kShortest) {
        const QString text = m_text;
        m_held.clear();
        m_text.clear();
        m_wait.stop();
        m_enter_taken = true;
        Q_EMIT scanned(text);
        return true;
    }
    if (!plain || key.text().size() != 1 || !key.text().front().isPrint()) {
        giveOn();
        return false;
    }
    hold(key);
    m_text += key.text();
    m_wait.start();
    return true;
}

void Scanner::hold(const QKeyEvent& key)
{
    m_held.push_back(std::make_unique<QKeyEvent>(
        key.type(), key.key(), key.modifiers(), key.text(), key.isAutoRepeat(), static_cast<quint16>(key.count())));
}

void Scanner::giveOn()
{
    m_wait.stop();
    m_text.clear();
    const auto held = std::move(m_held);
    m_held.clear();
    m_giving = true;
    for (const auto& key : held) {
        if (m_window) {
            QCoreApplication::sendEvent(m_window, key.get());
        }
    }
    m_giving = false;
}

} // namespace brimful::tablet
