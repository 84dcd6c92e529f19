#include "tests/qml/looking.h"

#include "app/tablet/engine.h"

#include <QAccessible>
#include <QDir>
#include <QFileInfo>
#include <QFont>
#include <QFontMetricsF>
#include <QHash>
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
    QHash<QRgb, int> often;
    for (int y = place.top(); y <= place.bottom(); ++y) {
        for (int x = place.left(); x <= place.right(); ++x) {
            ++often[glass.pixel(x, y)];
        }
    }
    const double ground = luminance(std::max_element(often.cbegin(), often.cend()).key());
    double best = 1;
    for (auto one = often.keyBegin(); one != often.keyEnd(); ++one) {
        const double ink = luminance(*one);
        best = std::max(best, (std::max(ground, ink) + 0.05) / (std::min(ground, ink) + 0.05));
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

QRectF placeOf(const QQuickItem* item) { return item->mapRectToScene(QRectF(0, 0, item->width(), item->height())); }

// Where the letters themselves are: of the box that a text has, the part between the top of a capital and the foot of most letters.
QRectF inkOf(const QQuickItem* item)
{
    const QFontMetricsF metrics(item->property("font").value<QFont>());
    const double wide = item->property("contentWidth").toDouble();
    const double high = item->property("contentHeight").toDouble();
    const auto across = item->property("effectiveHorizontalAlignment").toInt();
    const auto up = item->property("verticalAlignment").toInt();
    const double spare = item->width() - wide;
    const double left = (across & Qt::AlignRight) != 0 ? spare : (across & Qt::AlignHCenter) != 0 ? spare / 2 : 0;
    const double below = item->height() - high;
    const double top = (up & Qt::AlignBottom) != 0 ? below : (up & Qt::AlignVCenter) != 0 ? below / 2 : 0;
    const double head = metrics.ascent() - metrics.capHeight();
    const double foot = metrics.descent() * 0.6;
    return item->mapRectToScene(QRectF(left, top + head, wide, std::max(1.0, high - head - foot)));
}

// A thing with an edge of its own: what stands on it must not stick out.
bool hasEdge(const QQuickItem* item)
{
    return item->inherits("QQuickAbstractButton") || item->inherits("QQuickRectangle")
        || QByteArray(item->metaObject()->className()).endsWith("tablet::Box");
}

// The part of a place that lists and what else cuts off leave to be seen.
QRectF shownOf(const QQuickItem* item, QRectF place)
{
    for (const QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        if (up->clip()) {
            place = place.intersected(placeOf(up));
        }
    }
    return place;
}

using Line = std::pair<const QQuickItem*, int>;

// Lines of which a page shows a part; those that it shows whole.
void linesOf(const QQuickItem* item, std::map<Line, bool>& whole, QStringList& found)
{
    const int lines = item->property("lineCount").toInt();
    const QRectF place = placeOf(item);
    const double each = place.height() / std::max(1, lines);
    for (int i = 0; i < lines; ++i) {
        const QRectF ink(place.left(), place.top() + (i + 0.25) * each, place.width(), 0.55 * each); // capitals, without what hangs below
        const double left = shownOf(item, ink).height();
        bool& once = whole[{item, i}];
        once = once || left > ink.height() - 1;
        if (left > 1 && left < ink.height() - 1) {
            found.append(QStringLiteral("half a line: %1 (line %2, %3 of %4)")
                             .arg(item->property("text").toString())
                             .arg(i + 1)
                             .arg(left)
                             .arg(ink.height()));
        }
    }
}

struct Shape {
    QString text;
    QRectF ink;
};

// Words that stick out of what they stand on, or out of a list sideways.
void outsideOf(const QQuickItem* item, const Shape& words, QStringList& found)
{
    for (const QQuickItem* up = item->parentItem(); up != nullptr; up = up->parentItem()) {
        const QRectF place = placeOf(up).adjusted(-2, -2, 2, 2);
        bool over = hasEdge(up) && !place.contains(words.ink);
        for (const QQuickItem* beside : up->childItems()) { // a box that was drawn for them
            const QRectF box = placeOf(beside).adjusted(-2, -2, 2, 2);
            over =
                over || (beside != item && seen(beside) && hasEdge(beside) && box.contains(words.ink.center()) && !box.contains(words.ink));
        }
        if (over) {
            found.append(QStringLiteral("over the edge: %1").arg(words.text));
            return;
        }
        const bool list = up->inherits("QQuickFlickable");
        if (list && (words.ink.left() < place.left() || words.ink.right() > place.right())) {
            found.append(QStringLiteral("wider than its list: %1").arg(words.text));
            return;
        }
        if (list) {
            return; // what lies above or below comes with a page key
        }
    }
}

void overlaps(const std::vector<Shape>& words, QStringList& found)
{
    for (std::size_t i = 0; i < words.size(); ++i) {
        for (std::size_t k = i + 1; k < words.size(); ++k) {
            const QRectF both = words[i].ink.intersected(words[k].ink);
            if (both.width() > 2 && both.height() > 2) {
                found.append(QStringLiteral("words on words: %1 / %2").arg(words[i].text, words[k].text));
            }
        }
    }
}

// A list of which too little can be seen to read a line of it.
void tooLow(const QQuickItem* item, QStringList& found)
{
    const bool more = item->property("contentHeight").toDouble() > item->height() + 1;
    if (more && item->height() < kLeastText) {
        found.append(
            QStringLiteral("a list too low to read: %1 px of %2").arg(item->height()).arg(item->property("contentHeight").toDouble()));
    }
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

bool isMessage(const QQuickItem* item)
{
    const QByteArray type = item->metaObject()->className();
    return type.startsWith("AlarmBand_QML") || type.startsWith("WetBand_QML") || type.startsWith("Band_QML");
}

bool inMessage(const QQuickItem* item)
{
    while (item != nullptr && !isMessage(item)) {
        item = item->parentItem();
    }
    return item != nullptr;
}

// Something to read, to press, to write in or to look at.
bool hasInk(const QQuickItem* item)
{
    const bool words = item->inherits("QQuickText") && !item->property("text").toString().trimmed().isEmpty();
    return words || item->inherits("QQuickAbstractButton") || item->inherits("QQuickTextInput") || item->inherits("QQuickPaintedItem");
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
        QTest::qWait(8);
    }
}

QStringList Shown::warnings() const { return heard(); }

QStringList Shown::flaws() const
{
    QStringList found;
    QStringList names;
    std::vector<std::pair<QString, QRectF>> buttons;
    std::vector<std::pair<QString, QRectF>> words;
    std::vector<Shape> shapes;
    const QRectF glass(0, 0, m_window->width(), m_window->height());
    const QImage drawn = m_window->grabWindow();
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (!seen(item)) {
            return;
        }
        const QRectF place = placeOf(item);
        if (item->inherits("QQuickFlickable")) {
            tooLow(item, found);
            if (!glass.adjusted(-1, -1, 1, 1).contains(place)) {
                found.append(QStringLiteral("a list off the glass: %1 px high").arg(item->height()));
            }
        }
        if (item->inherits("QQuickText")) {
            const QString text = item->property("text").toString();
            if (text.trimmed().isEmpty()) {
                return;
            }
            if (!scrolls(item) && !inButton(item)) {
                const double wide = std::min(place.width(), item->property("contentWidth").toDouble());
                words.emplace_back(text, QRectF(place.left(), place.top(), wide, place.height()));
            }
            const Shape shape{text, inkOf(item)};
            outsideOf(item, shape, found);
            if (const QRectF left = shownOf(item, shape.ink); left.width() > 1 && left.height() > 1) {
                shapes.push_back({text, left});
            }
            const QFont font = item->property("font").value<QFont>();
            if (font.pixelSize() < kLeastText) {
                found.append(QStringLiteral("small words: %1 at %2").arg(text).arg(font.pixelSize()));
            }
            if (item->property("truncated").toBool() && item->property("whole").toBool()) { // a list that opens to the whole may cut
                found.append(QStringLiteral("cut off: %1 (in %2 x %3, %4 lines, needs %5 x %6)")
                                 .arg(text)
                                 .arg(item->width())
                                 .arg(item->height())
                                 .arg(item->property("lineCount").toInt())
                                 .arg(item->implicitWidth())
                                 .arg(item->implicitHeight()));
            }
            if (!scrolls(item) && !glass.adjusted(-1, -1, 1, 1).contains(shape.ink)) {
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
    overlaps(shapes, found);
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

QStringList Shown::turned() const
{
    constexpr int kPages = 60;
    QStringList found;
    everyItem(m_window->contentItem(), [&](QQuickItem* pager) {
        if (!seen(pager) || !pager->property("ends").isValid() || !pager->property("paged").toBool()) {
            return;
        }
        QQuickItem* key = nullptr;
        QQuickItem* view = nullptr;
        everyItem(pager, [&](QQuickItem* item) {
            key = item->property("of").isValid() ? item : key;
            view = view == nullptr && item->inherits("QQuickFlickable") ? item : view;
        });
        if (key == nullptr || view == nullptr) {
            found.append(QStringLiteral("pages without a key"));
            return;
        }
        const QString what = pager->property("what").toString();
        if (placeOf(key).adjusted(1, 1, -1, -1).intersects(placeOf(view->parentItem()))) {
            found.append(QStringLiteral("the page key on the words: %1").arg(what));
        }
        std::map<Line, bool> whole;
        int page = 0;
        do {
            everyItem(view, [&](QQuickItem* item) {
                if (item->inherits("QQuickText") && item->isVisible() && !item->property("text").toString().isEmpty()) {
                    linesOf(item, whole, found);
                }
            });
            QMetaObject::invokeMethod(key, "clicked");
            QCoreApplication::processEvents();
        } while (view->property("contentY").toDouble() > 0.5 && ++page < kPages);
        if (page >= kPages) {
            found.append(QStringLiteral("pages that do not end: %1").arg(what));
        }
        for (const auto& [line, once] : whole) {
            if (!once) {
                found.append(QStringLiteral("on no page: line %1 of %2 (%3)")
                                 .arg(line.second + 1)
                                 .arg(line.first->property("text").toString(), what));
            }
        }
    });
    return found;
}

QStringList Shown::covered() const
{
    QStringList found;
    std::vector<QRectF> messages;
    std::vector<std::pair<QString, QRectF>> others;
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (!seen(item)) {
            return;
        }
        if (isMessage(item)) {
            messages.push_back(placeOf(item));
        } else if (inMessage(item)) {
            if (item->property("truncated").toBool()) {
                found.append(QStringLiteral("cut off: ") + item->property("text").toString());
            }
        } else if (hasInk(item)) {
            const QRectF place = shownOf(item, item->inherits("QQuickText") ? inkOf(item) : placeOf(item));
            const QString words = item->inherits("QQuickText") ? item->property("text").toString() : accessibleName(item);
            others.emplace_back(words.isEmpty() ? QString::fromLatin1(item->metaObject()->className()) : words, place);
        }
    });
    if (messages.size() != 1) {
        return {QStringLiteral("%1 messages").arg(messages.size())};
    }
    if (!QRectF(0, 0, m_window->width(), m_window->height()).contains(messages.front())) {
        found.append(QStringLiteral("off the glass"));
    }
    for (const auto& [what, place] : others) {
        const QRectF both = place.intersected(messages.front());
        if (both.width() > 1 && both.height() > 1) {
            found.append(QStringLiteral("covered: ") + what);
        }
    }
    return found;
}

QHash<QQuickItem*, QRectF> Shown::keys() const
{
    QHash<QQuickItem*, QRectF> places;
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (seen(item) && item->inherits("QQuickAbstractButton") && !inMessage(item)) {
            if (const QRectF place = shownOf(item, placeOf(item)); !place.isEmpty()) {
                places.insert(item, place);
            }
        }
    });
    return places;
}

QStringList Shown::words() const
{
    QStringList all;
    everyItem(m_window->contentItem(), [&](QQuickItem* item) {
        if (!seen(item)) {
            return;
        }
        if (item->inherits("QQuickText")) {
            all.append(item->property("text").toString());
        }
        if (const QString name = accessibleName(item); !name.isEmpty()) {
            all.append(name);
        }
    });
    return all;
}

void Shown::resize(const QSize& size) const
{
    m_window->resize(size);
    settle();
}

void Shown::picture(const QString& name) const
{
    const QString file = QStringLiteral(BRIMFUL_BINARY_DIR "/screens/") + name + QStringLiteral(".png");
    QDir().mkpath(QFileInfo(file).path());
    m_window->grabWindow().save(file);
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
