// A half-filled sheet, kept and read again.
#include "app/tablet/sheet.h"

namespace brimful::tablet {

using canon::Json;

// Half-filled sheets live with the device, never in the ledger: they survive a dead battery and count for nothing.
void Sheet::saveDraft()
{
    people::Device* device = m_yard == nullptr ? nullptr : m_yard->device();
    if (device == nullptr || m_plan.draft.empty() || m_plan.gate) {
        return;
    }
    Json answers = Json::array();
    for (std::size_t i = 0; i < m_answers.size() && m_plan.reg == rules::kNone; ++i) {
        if (m_answers[i] && !m_plan.asks[i].secret) {
            Json one = Json::object();
            one.set("at", static_cast<std::int64_t>(i)).set("said", m_answers[i]->said.toStdString()).set("value", m_answers[i]->value);
            if (!m_answers[i]->chalk.isEmpty()) {
                one.set("chalk", m_answers[i]->chalk.toStdString());
            }
            answers.items.push_back(std::move(one));
        }
    }
    if (answers.items.empty()) {
        static_cast<void>(device->dropDraft(m_plan.draft));
        return;
    }
    Json draft = Json::object();
    draft.set("answers", std::move(answers)).set("asks", static_cast<std::int64_t>(m_plan.asks.size())).set("ms", m_yard->nowMs());
    if (m_chalk_at) { // somebody may be out with it and the chalk
        draft.set("chalk", m_chalk.toStdString()).set("chalk_at", static_cast<std::int64_t>(*m_chalk_at));
    }
    static_cast<void>(device->putDraft(m_plan.draft, canon::canonical(draft)));
}

void Sheet::readDraft()
{
    people::Device* device = m_yard == nullptr ? nullptr : m_yard->device();
    if (device == nullptr || m_plan.draft.empty() || m_plan.gate) {
        return;
    }
    const auto kept = device->draft(m_plan.draft);
    const auto draft = kept ? canon::readCanonical(*kept) : tl::make_unexpected(canon::JsonError{});
    if (!draft || draft->integerOf("asks") != static_cast<std::int64_t>(m_plan.asks.size()) || draft->find("answers") == nullptr) {
        return;
    }
    for (const Json& one : draft->find("answers")->items) {
        const auto at = static_cast<std::size_t>(one.integerOf("at"));
        if (at < m_answers.size() && one.find("value") != nullptr) {
            m_answers[at] = Answer{*one.find("value"), QString::fromStdString(std::string(one.textOf("said"))),
                QString::fromStdString(std::string(one.textOf("chalk")))};
        }
    }
    if (draft->find("chalk_at") != nullptr) {
        m_chalk = QString::fromStdString(std::string(draft->textOf("chalk")));
        m_chalk_at = static_cast<std::size_t>(draft->integerOf("chalk_at"));
    }
    while (m_at < m_answers.size() && m_answers[m_at]) {
        ++m_at;
    }
    if (m_at > 0) { // the last one is typed again: nobody remembers a number across an interruption
        --m_at;
        m_answers[m_at].reset();
    }
    //: %1 is a clock time
    m_draft_note = tr("Draft of %1, does not count").arg(text::clockTime(draft->integerOf("ms"), m_reading));
}

} // namespace brimful::tablet
