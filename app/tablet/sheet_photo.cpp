// A photograph or a paper that a sheet asks for. What would not be kept is said where it is picked, not after the PIN.
#include "app/tablet/sheet.h"

#include <algorithm>

namespace brimful::tablet {

bool Sheet::asksPhotograph() const
{
    const Ask* ask = current();
    if (ask == nullptr || ask->hand != Hand::File || m_yard == nullptr) {
        return false;
    }
    const rules::Index fact = ask->fields.front().fact;
    return fact != rules::kNone && m_yard->pack().facts[fact].kind == rules::FactKind::Photo;
}

void Sheet::lookForPictures()
{
    const Ask* ask = current();
    if (ask != nullptr && ask->hand == Hand::File && m_yard != nullptr) {
        m_written.clear();
        m_photographs.look(!asksPhotograph(), m_yard->now().wall_ms, m_reading);
        Q_EMIT changed();
    }
}

void Sheet::pickFile(const QString& path)
{
    m_touched.restart();
    m_written.clear();
    m_message = path.isEmpty() ? QString() : whyNot(path);
    if (m_message.isEmpty()) {
        m_written = path;
    }
    m_photographs.pick(m_written);
    Q_EMIT changed();
}

QString Sheet::whyNot(const QString& path) const
{
    for (std::size_t i = 0; i < m_answers.size() && asksPhotograph(); ++i) {
        if (i != m_at && m_plan.asks[i].hand == Hand::File && m_answers[i] && m_answers[i]->value.text == path.toStdString()) {
            return tr("Not taken: this sheet has that picture already. One picture proves one thing: take a new one.");
        }
    }
    const auto kept = m_yard == nullptr ? yard::Outcome<void>{} : m_yard->mayKeep(path.toStdString(), asksPhotograph());
    return kept ? QString() : whyNotTaken(kept.error());
}

} // namespace brimful::tablet
