// Who signs, the PIN, the second person. A PIN is never shown, never kept, and wiped after each try.
#include "app/tablet/sheet.h"

#include <algorithm>

namespace brimful::tablet {

namespace {

constexpr std::size_t kLongestPin = 24;

std::string rolesInWords(const std::vector<std::string>& roles, const yard::Yard* yard)
{
    QStringList words;
    for (const std::string& role : roles) {
        words.append(yard == nullptr ? QString::fromStdString(role) : text::roleName(yard->pack(), role));
    }
    return words.join(QStringLiteral(", ")).toStdString();
}

} // namespace

void Sheet::take()
{
    if (!canTake()) {
        return;
    }
    m_touched.restart();
    switch (m_phase) {
    case Phase::Asking:
        takeAnswer();
        return;
    case Phase::Cannot:
        m_cannot = m_chosen.toStdString();
        beginSigning();
        return;
    case Phase::Clock:
        if (m_chosen == QLatin1String("right")) {
            m_confirm_clock = true;
            m_phase = Phase::First;
            fillPeople(false);
            Q_EMIT changed();
            return;
        }
        tell(tr("Set this tablet's clock in its own settings, then come back. Nothing is signed by a wrong clock."));
        return;
    case Phase::First:
    case Phase::Second:
        signNow();
        return;
    case Phase::Told:
        close();
        return;
    }
}

void Sheet::refuse()
{
    if (m_phase == Phase::Asking && !m_plan.gate && !m_plan.cannot.empty() && !asksSecond()) {
        m_phase = Phase::Cannot;
        m_chosen.clear();
        fillOptions(m_plan.cannot, false);
        Q_EMIT changed();
        return;
    }
    if (m_phase == Phase::Cannot) {
        m_phase = Phase::Asking;
        showAsk();
        return;
    }
    if (m_plan.waits && m_phase != Phase::Told) { // the record that waits is left to itself, and dies of age
        m_plan.asks.swap(m_plan.waits->asks);
        m_plan.waits.reset();
        Plan again = std::move(m_plan);
        open(std::move(again), m_yard, m_picture, m_reading);
        return;
    }
    close();
}

void Sheet::back() { close(); }

void Sheet::beginSigning()
{
    fillAnswered();
    fillPlaces();
    if (!m_plan.signers) {
        const auto done = m_plan.act(filled(), std::nullopt, std::nullopt);
        if (!done) {
            refuseWith(done.error());
            return;
        }
        finish(*done);
        return;
    }
    m_person.clear();
    m_pin.clear();
    if (m_yard != nullptr && !m_yard->clockConfirmed() && !m_confirm_clock) {
        m_phase = Phase::Clock;
        m_chosen.clear();
        fillOptions({{"right", tr("The date and time are right"), {}}, {"wrong", tr("They are wrong"), {}}}, false);
        Q_EMIT changed();
        return;
    }
    m_phase = Phase::First;
    fillPeople(false);
    Q_EMIT changed();
}

// The newest three of a day: whoever knows that it was somebody else sees it.
QString Sheet::signedLately() const
{
    constexpr std::int64_t kLately = 24LL * 3600 * 1000;
    constexpr std::size_t kShown = 3;
    auto people = m_yard == nullptr ? std::vector<yard::PersonShown>{} : m_yard->people();
    const auto long_ago = [&](const yard::PersonShown& one) {
        return !one.last_signed_ms || m_yard->nowMs() - *one.last_signed_ms > kLately;
    };
    std::erase_if(people, long_ago);
    std::ranges::sort(people, std::ranges::greater{}, &yard::PersonShown::last_signed_ms);
    people.resize(std::min(people.size(), kShown));
    QStringList said;
    for (const yard::PersonShown& one : people) {
        //: %1 a person, %2 a time span: "Bea 3 min"
        said.append(tr("%1 %2").arg(QString::fromStdString(one.name), text::span(m_yard->nowMs() - *one.last_signed_ms, m_reading)));
    }
    //: %1 people, each with how long ago
    return said.isEmpty() ? QString() : tr("Signed lately: %1 ago.").arg(said.join(QStringLiteral(", ")));
}

void Sheet::fillPeople(bool second)
{
    std::vector<Row> may;
    std::vector<Row> may_not;
    for (const yard::Yard::MaySign& one : m_plan.signers(second)) {
        Row row;
        row.key = QString::fromStdString(one.person);
        row.title = row.key;
        row.line = m_yard == nullptr ? QString() : text::roleName(m_yard->pack(), one.role);
        const bool same = second && row.key == m_first_person;
        if (one.may && !same) {
            may.push_back(std::move(row));
            continue;
        }
        report::Refusal refusal;
        refusal.why = same ? report::Why::SamePerson : one.why;
        refusal.path = one.person;
        refusal.expected = rolesInWords(second ? m_plan.second_roles : m_plan.roles, m_yard);
        row.line = text::refusal(refusal, m_yard == nullptr ? nullptr : &m_yard->pack());
        row.open = false;
        may_not.push_back(std::move(row));
    }
    m_people.set(std::move(may));
    m_others.set(std::move(may_not));
}

void Sheet::pickPerson(const QString& key)
{
    if (m_phase != Phase::First && m_phase != Phase::Second) {
        return;
    }
    m_person = key;
    m_pin.clear();
    m_message.clear();
    Q_EMIT changed();
}

void Sheet::pinPress(const QString& digit)
{
    if (hand() != Kind::Pin || digit.size() != 1 || !digit.front().isDigit() || m_pin.size() >= kLongestPin) {
        return;
    }
    m_pin.push_back(static_cast<char>(digit.front().toLatin1()));
    expectPin();
    Q_EMIT changed();
}

void Sheet::pinErase()
{
    if (!m_pin.empty()) {
        m_pin.pop_back();
        expectPin();
        Q_EMIT changed();
    } else if (m_phase == Phase::First || m_phase == Phase::Second) {
        m_person.clear(); // back to the people
        Q_EMIT changed();
    }
}

// A PIN that may be whole is stretched while the hand goes to Sign.
void Sheet::expectPin()
{
    if (m_yard != nullptr && !m_person.isEmpty() && m_pin.size() >= people::kShortestPin) {
        m_yard->expectPin(m_person.toStdString(), m_pin);
    }
}

void Sheet::signNow()
{
    yard::Signing signing{m_person.toStdString(), m_pin, {}};
    std::ranges::fill(m_pin, '\0');
    m_pin.clear();
    for (const yard::Yard::MaySign& one : m_plan.signers(m_phase == Phase::Second)) {
        if (one.person == signing.person && one.may) {
            signing.role = one.role;
        }
    }
    if (m_phase == Phase::First) {
        signFirst(std::move(signing));
    } else {
        signSecond(signing);
    }
}

void Sheet::signFirst(yard::Signing signing)
{
    if (m_confirm_clock && m_yard != nullptr && !m_yard->clockConfirmed()) {
        yard::Signing clock = signing;
        clock.role.clear();
        const auto confirmed = m_yard->confirmClock(m_yard->now().wall_ms, clock);
        if (!confirmed) {
            refuseWith(confirmed.error());
            return;
        }
    }
    m_first_person = m_person;
    if (m_plan.together && m_plan.two) {
        m_first_signing = std::move(signing);
        beginSecond();
        return;
    }
    const auto done = m_plan.act(filled(), signing, std::nullopt);
    if (!done) {
        refuseWith(done.error());
        return;
    }
    m_written_entry = true;
    if (m_plan.two && !done->counts) {
        m_first_entry = done->entry;
        beginSecond();
        return;
    }
    finish(*done);
}

// The other one gives a value too, before his PIN: who has looked can.
void Sheet::beginSecond()
{
    m_person.clear();
    m_mismatches = 0;
    if (m_first_entry && m_plan.asks_second) {
        m_second_ask = m_plan.asks_second(*m_first_entry);
    }
    if (m_second_ask) {
        m_phase = Phase::Asking;
        showAsk();
        return;
    }
    m_phase = Phase::Second;
    fillPeople(true);
    Q_EMIT changed();
}

void Sheet::signSecond(const yard::Signing& signing)
{
    const auto done =
        m_plan.together ? m_plan.act(filled(), m_first_signing, signing) : m_plan.confirm(*m_first_entry, signing, m_second_answer);
    if (!done) {
        refuseWith(done.error());
        return;
    }
    m_written_entry = true;
    finish(*done);
}

void Sheet::refuseWith(const report::Refusal& refusal)
{
    const QString words = text::refusal(refusal, m_yard == nullptr ? nullptr : &m_yard->pack());
    switch (refusal.why) {
    case report::Why::WrongPin:
    case report::Why::PinWait:
    case report::Why::PinLocked:
    case report::Why::RoleNotHeld:
    case report::Why::SamePerson:
    case report::Why::NoKeyHere:
        m_message = words; // of this person: another may sign
        Q_EMIT changed();
        return;
    default:
        tell(words);
    }
}

void Sheet::finish(const yard::Receipt& receipt)
{
    m_written_entry = true;
    if (people::Device* device = m_yard == nullptr ? nullptr : m_yard->device(); device != nullptr && !m_plan.draft.empty()) {
        static_cast<void>(device->dropDraft(m_plan.draft));
    }
    m_plan.draft.clear();
    m_secret.clear();
    if (receipt.failing) {
        m_message = tr("Recorded, outside its limit: the vessel is held.");
    }
    Q_EMIT signedBy(m_person);
    m_phase = Phase::Told;
    close();
}

void Sheet::tell(const QString& words)
{
    m_message = words;
    m_phase = Phase::Told;
    Q_EMIT changed();
}

} // namespace brimful::tablet
