#include "tests/glass/hand.h"

#include <QAccessible>
#include <QPointingDevice>
#include <QQuickItem>
#include <QTest>

namespace brimful::test {

namespace {

constexpr int kHeldMs = 1650;
constexpr int kMostDrags = 12;

QPointingDevice* glass()
{
    static QPointingDevice* const device = QTest::createTouchDevice();
    return device;
}

bool seen(const QQuickItem* item) { return item->isVisible() && item->opacity() > 0 && item->width() > 0 && item->height() > 0; }

QString spoken(QQuickItem* item)
{
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(item);
    return face == nullptr ? QString() : face->text(QAccessible::Name);
}

QQuickItem* listOf(const QQuickItem* item)
{
    for (QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        if (up->inherits("QQuickFlickable")) {
            return up;
        }
    }
    return nullptr;
}

QPointF middle(const QQuickItem* item) { return item->mapToScene(QPointF(item->width() / 2, item->height() / 2)); }

template <class Visit> void everySeen(QQuickItem* item, const Visit& visit)
{
    if (!seen(item)) {
        return;
    }
    visit(item);
    for (QQuickItem* child : item->childItems()) {
        everySeen(child, visit);
    }
}

// Its middle is cut away by nothing that it stands in.
bool isInSight(const QQuickItem* item)
{
    for (const QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        if (up->clip() && !up->mapRectToScene(QRectF(0, 0, up->width(), up->height())).contains(middle(item))) {
            return false;
        }
    }
    return true;
}

} // namespace

Hand::Hand(Shown& shown)
    : m_shown(shown)
{
}

QQuickItem* Hand::find(const QString& name) const
{
    QQuickItem* exact = nullptr;
    QQuickItem* begins = nullptr;
    everySeen(m_shown.window()->contentItem(), [&](QQuickItem* item) {
        if (!item->inherits("QQuickAbstractButton") || !item->isEnabled()) {
            return;
        }
        const QString said = spoken(item);
        exact = said == name ? item : exact;
        begins = said.startsWith(name + QLatin1String(", ")) ? item : begins;
    });
    return exact != nullptr ? exact : begins;
}

// In a list that scrolls the control may lie above or below what is shown, or not exist yet.
QQuickItem* Hand::reach(const QString& name)
{
    for (const double way : {-0.6, 0.6}) { // first down the list, then back up
        for (int i = 0; i < kMostDrags; ++i) {
            QQuickItem* item = find(name);
            QQuickItem* list = item == nullptr ? nullptr : listOf(item);
            if (item != nullptr && (list == nullptr || isInSight(item))) {
                return item;
            }
            if (list == nullptr) {
                everySeen(m_shown.window()->contentItem(), [&](QQuickItem* one) { list = one->inherits("QQuickFlickable") ? one : list; });
            }
            if (list == nullptr) {
                break;
            }
            drag(list, way);
        }
    }
    m_missing = name;
    return nullptr;
}

void Hand::tap(const QPoint& at, int ms) const
{
    QTest::touchEvent(m_shown.window(), glass()).press(0, at, m_shown.window());
    if (ms > 0) {
        QTest::qWait(ms);
    }
    QTest::touchEvent(m_shown.window(), glass()).release(0, at, m_shown.window());
    QCoreApplication::processEvents();
}

void Hand::drag(const QQuickItem* list, double by) const
{
    const QPointF from = middle(list);
    const double length = by * list->height();
    constexpr int kSteps = 6;
    QTest::touchEvent(m_shown.window(), glass()).press(0, from.toPoint(), m_shown.window());
    for (int i = 1; i <= kSteps; ++i) {
        QTest::qWait(16);
        QTest::touchEvent(m_shown.window(), glass()).move(0, (from + QPointF(0, length * i / kSteps)).toPoint(), m_shown.window());
    }
    QTest::qWait(120); // at rest before it lifts: no flick
    QTest::touchEvent(m_shown.window(), glass()).release(0, (from + QPointF(0, length)).toPoint(), m_shown.window());
    m_shown.settle();
}

bool Hand::sees(const QString& name)
{
    QCoreApplication::processEvents();
    return find(name) != nullptr;
}

bool Hand::touch(const QString& name)
{
    QCoreApplication::processEvents();
    const QQuickItem* item = reach(name);
    if (item == nullptr) {
        return false;
    }
    ++m_acts;
    tap(middle(item).toPoint(), 0);
    m_shown.settle();
    return true;
}

bool Hand::hold(const QString& name)
{
    const QQuickItem* item = reach(name);
    if (item == nullptr) {
        return false;
    }
    ++m_acts;
    tap(middle(item).toPoint(), kHeldMs);
    m_shown.settle();
    return true;
}

bool Hand::key(const QString& name)
{
    const QQuickItem* item = find(name);
    if (item == nullptr) {
        m_missing = name;
        return false;
    }
    ++m_keys;
    tap(middle(item).toPoint(), 0);
    return true;
}

bool Hand::write(const QString& text)
{
    if (find(QStringLiteral("Write with keys")) != nullptr && !touch(QStringLiteral("Write with keys"))) {
        return false;
    }
    for (const QChar letter : text) {
        if (letter == u' ') {
            if (!key(QStringLiteral("space"))) {
                return false;
            }
            continue;
        }
        const QString name = QStringLiteral("Key %1").arg(letter);
        if (find(name) == nullptr) {
            const bool to_letters = letter.isLetter() && find(QStringLiteral("Letters")) != nullptr;
            if (to_letters && !key(QStringLiteral("Letters"))) {
                return false;
            }
            const QString turn = !letter.isLetter() ? QStringLiteral("Digits and signs")
                : letter.isUpper()                  ? QStringLiteral("Capitals")
                                                    : QStringLiteral("Small letters");
            if (find(name) == nullptr && !key(turn)) {
                return false;
            }
            m_shown.settle(); // nobody presses a key before it is seen
        }
        if (!key(name)) {
            return false;
        }
    }
    return true;
}

bool Hand::number(const QString& typed)
{
    const QString digits = typed.section(u' ', 0, 0);
    const QString unit = typed.section(u' ', 1);
    const bool in_use = unit.isEmpty() || unit.startsWith(u'%') || find(QStringLiteral("Unit %1, in use").arg(unit)) != nullptr;
    if (!in_use && !key(QStringLiteral("Unit %1").arg(unit))) {
        return false;
    }
    for (const QChar one : digits) {
        const QString name = one == u'.' ? QStringLiteral("Point") : one == u'-' ? QStringLiteral("Below zero") : QString(one);
        if (!key(name)) {
            return false;
        }
    }
    return true;
}

bool Hand::digits(const QString& pin)
{
    for (const QChar one : pin) {
        if (!key(QString(one))) {
            return false;
        }
    }
    return true;
}

} // namespace brimful::test
