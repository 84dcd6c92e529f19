#include "app/tablet/questions_page.h"

namespace brimful::tablet {

namespace {

constexpr std::uint64_t kAtOnce = 500; // entries: less than a frame

} // namespace

QuestionsPage::QuestionsPage(QObject* parent)
    : QObject(parent)
{
    connect(&m_timer, &QTimer::timeout, this, &QuestionsPage::readOn);
}

void QuestionsPage::open(Session& session)
{
    close();
    m_session = &session;
    m_rows.set({});
    m_nothing.clear();
    m_looked.clear();
    m_timer.start(0);
    readOn();
}

void QuestionsPage::close()
{
    m_timer.stop();
    m_so_far = {};
}

void QuestionsPage::readOn()
{
    if (!m_session->isOpen()) {
        close();
        return;
    }
    const auto asked = m_session->yard().readToAsk(m_so_far, kAtOnce);
    if (!asked) {
        close();
        Q_EMIT refused(asked.error());
        return;
    }
    if (*asked) {
        show(**asked);
        close();
    } else {
        //: while it is read; both are numbers of entries
        m_looked = tr("Reading the record: %1 of %2 entries.").arg(m_so_far.entries.size()).arg(m_so_far.of);
        Q_EMIT changed();
    }
}

void QuestionsPage::show(const report::Asked& asked)
{
    std::vector<Row> rows;
    for (const report::Question& question : asked.questions) {
        const text::Asking words = text::toAsk(m_session->pack(), question, m_session->reading);
        Row row;
        row.key = QString::number(rows.size());
        row.title = words.what;
        row.line = words.ask;
        QStringList who;
        for (const std::string& person : question.persons) {
            who.append(QString::fromStdString(person));
        }
        const QString day = text::dateTime(question.at_ms, m_session->reading).section(u' ', 0, 2);
        //: who signed, and the day of the last entry: "Bea on Sat 28 Nov"
        row.note = who.isEmpty() ? tr("till %1").arg(day) : tr("%1 on %2").arg(who.join(QStringLiteral(", ")), day);
        rows.push_back(std::move(row));
    }
    m_looked = text::lookedAt(asked, m_session->reading);
    m_nothing = rows.empty() ? text::nothingStoodOut() : QString();
    m_rows.set(std::move(rows));
    Q_EMIT changed();
}

} // namespace brimful::tablet
