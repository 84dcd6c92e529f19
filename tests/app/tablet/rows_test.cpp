// A list that only changes its words keeps its rows: nothing moves under a finger.
#include "app/tablet/rows.h"
#include "tests/support/suite.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <QTest>

using brimful::tablet::Row;
using brimful::tablet::RowList;

class RowsTest : public QObject {
    Q_OBJECT

private slots:
    void keepsRowsUnderTheSameKeys();

private:
    static Row row(const QString& key, const QString& title)
    {
        Row one;
        one.key = key;
        one.title = title;
        return one;
    }
};

void RowsTest::keepsRowsUnderTheSameKeys()
{
    RowList list;
    const QAbstractItemModelTester tester(&list, QAbstractItemModelTester::FailureReportingMode::QtTest);
    QSignalSpy reset(&list, &QAbstractItemModel::modelReset);
    QSignalSpy changed(&list, &QAbstractItemModel::dataChanged);
    QVERIFY(reset.isValid() && changed.isValid());
    list.set({row(QStringLiteral("a"), QStringLiteral("one")), row(QStringLiteral("b"), QStringLiteral("two"))});
    QCOMPARE(reset.count(), 1);
    list.set({row(QStringLiteral("a"), QStringLiteral("uno")), row(QStringLiteral("b"), QStringLiteral("two"))});
    QCOMPARE(reset.count(), 1);
    QCOMPARE(changed.count(), 1);
    QCOMPARE(list.data(list.index(0), RowList::TitleRole).toString(), QStringLiteral("uno"));
    list.set({row(QStringLiteral("b"), QStringLiteral("two"))});
    QCOMPARE(reset.count(), 2);
    QCOMPARE(list.count(), 1);
}

BRIMFUL_SUITE(RowsTest);
#include "rows_test.moc"
