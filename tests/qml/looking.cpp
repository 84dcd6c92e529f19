#include "tests/qml/looking.h"

#include "app/tablet/engine.h"

#include <QAccessible>
#include <QDir>
#include <QFont>
#include <QImage>
#include <QQuickItem>
#include <QTest>

#include <algorithm>
#include <cmath>
#include <map>

namespace brimful::test {

namespace {

constexpr double kLeastText = 30; // px on 1280 x 800
constexpr double kLeastTarget = 82;

QStringList& heard()
{
    static QStringList lines;
    return lines;
}

void listen(QtMsgType type, const QMessageLogContext&, const QString& message)
{
    if (type == QtWarningMsg || type == QtCriticalMsg) {
        heard().append(message);
        fprintf(stderr, "%s\n", qPrintable(message));
    }
}

constexpr double kLeastContrast = 7; // WCAG 2.1, success criterion 1.4.6

// Relative luminance as WCAG 2.1 defines it.
double luminance(QRgb colour)
{
    const auto linear = [](int channel) {
        const double share = channel / 255.0;
        return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(qRed(colour)) + 0.7152 * linear(qGreen(colour)) + 0.0722 * linear(qBlue(colour));
}

// Of the words drawn in that place: what is there most is what they stand on, what differs most from it is their ink.
double contrastIn(const QImage& glass, const QRect& place)
{
    std::map<QRgb, int> often;
    for (int y = place.top(); y <= place.bottom(); ++y) {
        for (int x = place.left(); x <= place.right(); ++x) {
            ++often[glass.pixel(x, y)];
        }
    }
    const auto ground = std::ranges::max_element(often, {}, [](const auto& one) { return one.second; });
    double best = 1;
    for (const auto& [colour, count] : often) {
        const double a = luminance(ground->first);
        const double b = luminance(colour);
        best = std::max(best, (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05));
    }
    return best;
}

bool seen(const QQuickItem* item) { return item->isVisible() && item->opacity() > 0 && item->width() > 0 && item->height() > 0; }

// Inside a list that scrolls, what lies below is not lost.
bool scrolls(const QQuickItem* item)
{
    for (const QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        if (up->inherits("QQuickFlickable")) {
            return true;
        }
    }
    return false;
}

bool inButton(const QQuickItem* item)
{
    for (const QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        if (up->inherits("QQuickAbstractButton")) {
            return true;
        }
    }
    return false;
}

void everyItem(QQuickItem* item, const std::function<void(QQuickItem*)>& visit)
{
    visit(item);
    for (QQuickItem* child : item->childItems()) {
        everyItem(child, visit);
    }
}

QString accessibleName(QQuickItem* item)
{
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(item);
    return face == nullptr ? QString() : face->text(QAccessible::Name);
}

} // namespace

Shown::Shown(const QSize& size, const std::filesystem::path& folder, std::unique_ptr<ledger::Clock> clock)
{
    qInstallMessageHandler(listen);
    heard().clear();
    QAccessible::setActive(true);
    if (folder.empty()) {
        m_demo = std::make_unique<DemoYard>();
    }
    m_tablet = std::make_unique<tablet::Tablet>(folder.empty() ? m_demo->folder() : folder, std::move(clock));
    m_engine = std::make_unique<QQmlApplicationEngine>();
    tablet::setupEngine(*m_engine);
    m_tablet->start();
    tablet::show(*m_engine, *m_tablet);
    if (!m_engine->rootObjects().isEmpty()) {
        m_window = qobject_cast<QQuickWindow*>(m_engine->rootObjects().constFirst());
        m_window->resize(size);
        m_window->requestActivate();
        settle();
    }
}

Shown::~Shown()
{
    m_engine.reset();
    qInstallMessageHandler(nullptr);
}

void Shown::settle() const
{
    for (int i = 0; i < 3; ++i) {
        QCoreApplication::processEvents();
        QTest::qWait(20);
    }
}

QStringList Shown::warnings() const { return heard(); }

QStringList Shown::flaws() const
{
    QStringList found;
    QStringList names;
    std::vector<std::pair<QString, QRectF>> buttons;
    std::vector<std::pair<QString, QRectF>> words;
    const QRectF glass(0, 0, m_window->width(), m_window->height());
    const QImage drawn = m_window->grabWindow();
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (!seen(item)) {
            return;
        }
        const QRectF place = item->mapRectToScene(QRectF(0, 0, item->width(), item->height()));
        if (item->inherits("QQuickText")) {
            const QString text = item->property("text").toString();
            if (text.trimmed().isEmpty()) {
                return;
            }
            if (!scrolls(item) && !inButton(item)) {
                const double wide = std::min(place.width(), item->property("contentWidth").toDouble());
                words.emplace_back(text, QRectF(place.left(), place.top(), wide, place.height()));
            }
            const QFont font = item->property("font").value<QFont>();
            if (font.pixelSize() < kLeastText) {
                found.append(QStringLiteral("small words: %1 at %2").arg(text).arg(font.pixelSize()));
            }
            if (item->property("truncated").toBool() && item->property("whole").toBool()) { // a list that opens to the whole may cut
                found.append(QStringLiteral("cut off: %1").arg(text));
            }
            if (!scrolls(item) && !glass.adjusted(-1, -1, 1, 1).contains(place)) {
                found.append(QStringLiteral("off the glass: %1").arg(text));
            }
            const QRect pixels = place.toRect().intersected(drawn.rect());
            if (!scrolls(item) && !pixels.isEmpty()) {
                if (const double contrast = contrastIn(drawn, pixels); contrast < kLeastContrast) {
                    found.append(QStringLiteral("weak ink: %1 at %2 : 1").arg(text).arg(contrast, 0, 'f', 1));
                }
            }
        }
        if (item->activeFocusOnTab() || item->property("focusPolicy").toInt() != 0) {
            const QString name = accessibleName(item);
            if (item->isEnabled() && name.isEmpty()) {
                found.append(QStringLiteral("no name: %1").arg(QLatin1String(item->metaObject()->className())));
            }
            if (!name.isEmpty() && names.contains(name)) {
                found.append(QStringLiteral("two of one name: %1").arg(name));
            }
            names.append(name);
            const bool button = item->inherits("QQuickAbstractButton");
            if (button && (item->height() < kLeastTarget || item->width() < 30)) {
                found.append(QStringLiteral("small target: %1 %2 x %3").arg(name).arg(item->width()).arg(item->height()));
            }
            if (button && !scrolls(item)) {
                buttons.emplace_back(name, place.adjusted(3, 3, -3, -3));
            }
            if (button && !scrolls(item) && !glass.adjusted(-1, -1, 1, 1).contains(place)) {
                found.append(QStringLiteral("target off the glass: %1").arg(name));
            }
        }
    });
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        for (std::size_t k = i + 1; k < buttons.size(); ++k) {
            if (buttons[i].second.intersects(buttons[k].second)) {
                found.append(QStringLiteral("one on the other: %1 / %2").arg(buttons[i].first, buttons[k].first));
            }
        }
        for (const auto& [text, place] : words) {
            if (buttons[i].second.intersects(place.adjusted(2, 10, -2, -10))) {
                found.append(QStringLiteral("words under a button: %1 / %2").arg(text, buttons[i].first));
            }
        }
    }
    return found;
}

void Shown::picture(const QString& name) const
{
    const QString folder = QStringLiteral(BRIMFUL_BINARY_DIR "/screens");
    QDir().mkpath(folder);
    m_window->grabWindow().save(folder + QLatin1Char('/') + name + QStringLiteral(".png"));
}

QQuickItem* Shown::named(const QString& accessible_name) const
{
    QQuickItem* found = nullptr;
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (seen(item) && item->inherits("QQuickControl") && accessibleName(item) == accessible_name) {
            found = item;
        }
    });
    return found;
}

} // namespace brimful::test
