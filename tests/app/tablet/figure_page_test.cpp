// What every live figure does alike: stepping within bounds, the record's own value, pages of keys, dragging, notes.
#include "app/tablet/figure_page.h"
#include "tests/support/suite.h"

#include <QSignalSpy>
#include <QTest>

using namespace brimful;
using tablet::FigurePage;
using tablet::Row;

namespace {

// Eight inputs, seven switches; the sum of the first two is shown.
class Sum : public FigurePage {
public:
    using FigurePage::FigurePage;
    int pressed{};
    std::string last_flipped;

protected:
    void open() override
    {
        const auto plain = [](double value) { return QString::number(value); };
        add({"a", "A", tablet::stepped(0, 10, 0.5), plain}).setOwn(3.3);
        add({"b", "B", tablet::stepped(-5, 5, 1), plain}).setNearest(0.2);
        for (const char* key : {"c", "d", "e", "f", "g", "h"}) {
            add({key, key, {0, 1}, plain});
        }
        handles("a", 20, "b", 10);
        addView("one", "One");
        addView("two", "Two");
        setAct("Go");
    }
    void compute() override
    {
        std::vector<Row> rows;
        for (const char* key : {"1", "2", "3", "4", "5", "6", "7"}) {
            Row row;
            row.key = QLatin1String(key);
            rows.push_back(row);
        }
        setSwitches(rows);
        line("Sum", QString::number(valueOf("a") + valueOf("b")));
        note("first");
        note("first");
        note(view());
    }
    void flipped(const QString& key) override { last_flipped = key.toStdString(); }
    void act() override { ++pressed; }
};

QStringList keysOf(tablet::RowList* list)
{
    QStringList out;
    for (const Row& row : list->rows()) {
        out << row.key;
    }
    return out;
}

QString sumOf(FigurePage& page) { return page.lines()->rows().at(0).line; }

} // namespace

class FigurePageTest : public QObject {
    Q_OBJECT
private slots:
    void init();
    void theRecordsOwnValueIsAmongTheSteps();
    void stepsStopAtTheBounds();
    void keysPage();
    void aDragMovesBothInputs();
    void viewsAndNotes();
    void theBlackKey();

private:
    std::unique_ptr<Sum> m_page;
};

void FigurePageTest::init()
{
    m_page = std::make_unique<Sum>();
    m_page->show({});
}

void FigurePageTest::theRecordsOwnValueIsAmongTheSteps()
{
    QCOMPARE(m_page->chosen(), QStringLiteral("A"));
    QCOMPARE(sumOf(*m_page), QStringLiteral("3.3"));
    m_page->step(1);
    QCOMPARE(sumOf(*m_page), QStringLiteral("3.5"));
    m_page->step(-2);
    QCOMPARE(sumOf(*m_page), QStringLiteral("3"));
}

void FigurePageTest::stepsStopAtTheBounds()
{
    m_page->choose("b");
    m_page->step(1000);
    QCOMPARE(m_page->input("b").value(), 5.0);
    m_page->step(-1000);
    QCOMPARE(m_page->input("b").value(), -5.0);
    m_page->choose("nonsense");
    QCOMPARE(m_page->chosen(), QStringLiteral("B"));
}

void FigurePageTest::keysPage()
{
    QCOMPARE(keysOf(m_page->inputs()), QStringList({"a", "b", "c", "d", "e", "more"}));
    QCOMPARE(m_page->letters().size(), 6);
    m_page->choose("more");
    QCOMPARE(keysOf(m_page->inputs()), QStringList({"f", "g", "h", "more"}));
    QCOMPARE(m_page->chosen(), QStringLiteral("f"));
    m_page->choose("more");
    QCOMPARE(m_page->chosen(), QStringLiteral("A"));
    QCOMPARE(keysOf(m_page->switches()), QStringList({"1", "2", "3", "4", "more"}));
    m_page->flip("more");
    QCOMPARE(keysOf(m_page->switches()), QStringList({"5", "6", "7", "more"}));
    QVERIFY(m_page->last_flipped.empty());
    m_page->flip("6");
    QCOMPARE(m_page->last_flipped, std::string("6"));
}

// Half the width is ten of the twenty steps; up is less of y. Back where it began, so is everything.
void FigurePageTest::aDragMovesBothInputs()
{
    QSignalSpy changed(m_page.get(), &FigurePage::changed);
    m_page->grasp(0.25, 0.5);
    m_page->drag(0.75, 0.2);
    QCOMPARE(m_page->input("b").value(), 3.0);
    QCOMPARE(m_page->input("a").at, std::size_t{17});
    QCOMPARE(changed.count(), 1);
    m_page->drag(0.751, 0.201); // less than a step: nothing is worked out again
    QCOMPARE(changed.count(), 1);
    m_page->drag(0.25, 0.5);
    QCOMPARE(sumOf(*m_page), QStringLiteral("3.3"));
    m_page->drag(40, -40);
    QCOMPARE(sumOf(*m_page), QStringLiteral("15"));
}

void FigurePageTest::viewsAndNotes()
{
    QCOMPARE(keysOf(m_page->views()), QStringList({"one", "two", "notes"}));
    QCOMPARE(m_page->notes(), QStringList({"first", "one"}));
    m_page->look("two");
    QCOMPARE(m_page->notes(), QStringList({"first", "two"}));
    m_page->look("three");
    QCOMPARE(m_page->view(), QStringLiteral("two"));
}

void FigurePageTest::theBlackKey()
{
    QCOMPARE(m_page->actTitle(), QStringLiteral("Go"));
    m_page->press();
    QCOMPARE(m_page->pressed, 1);
}

BRIMFUL_SUITE(FigurePageTest);
#include "figure_page_test.moc"
