// What a sheet says at each moment: the ask, the need, the labels of its buttons.
#include "app/tablet/sheet.h"

#include "core/quantity/recorded.h"

#include <algorithm>

namespace brimful::tablet {

Sheet::Kind Sheet::hand() const
{
    switch (m_phase) {
    case Phase::Asking:
        break;
    case Phase::Cannot:
    case Phase::Clock:
        return Kind::Choice;
    case Phase::First:
    case Phase::Second:
        return m_person.isEmpty() ? Kind::People : Kind::Pin;
    case Phase::Told:
        return Kind::Told;
    }
    const Ask* ask = current();
    if (ask == nullptr) {
        return Kind::Told;
    }
    return ask->secret ? Kind::Pin : static_cast<Kind>(ask->hand);
}

QString Sheet::kicker() const
{
    if (asksSecond()) {
        //: the second person, who has not signed yet, answers one question
        return tr("Second person: your own answer");
    }
    if (m_phase == Phase::Asking && !m_plan.asks.empty()) {
        if (m_plan.gate) {
            const auto is_question = [](const Ask& ask) { return !ask.tag; };
            const auto questions = std::ranges::count_if(m_plan.asks, is_question);
            const auto asked = std::count_if(m_plan.asks.begin(), m_plan.asks.begin() + static_cast<std::ptrdiff_t>(m_at), is_question) + 1;
            const Ask* ask = current();
            if (ask != nullptr && ask->tag) {
                //: %1 a hold point's name; the tag is read before the questions
                return tr("Hold point %1, the tag first").arg(m_plan.title);
            }
            //: %1 a hold point's name, %2 and %3 numbers
            return tr("Hold point %1, %2 of %3").arg(m_plan.title).arg(asked).arg(questions);
        }
        //: %1 a step's title, %2 and %3 numbers: "Fill 2 to the brim, 2 of 6"
        return tr("%1, %2 of %3").arg(m_plan.title).arg(m_at + 1).arg(m_plan.asks.size());
    }
    if (m_phase == Phase::Second) {
        //: %1 a step's or hold point's title
        return tr("%1, second person").arg(m_plan.title);
    }
    return m_plan.title;
}

QString Sheet::askText() const
{
    switch (m_phase) {
    case Phase::Asking:
        break;
    case Phase::Cannot:
        return tr("Cannot: why?");
    case Phase::Clock:
        //: before the first PIN after a start; %1 is a date and time
        return tr("Is it now %1?").arg(text::dateTime(m_yard->now().wall_ms, m_reading));
    case Phase::First:
        return m_person.isEmpty() ? tr("Who signs?") : tr("%1, type your PIN.").arg(m_person);
    case Phase::Second:
        //: the tablet is handed to the second person
        return m_person.isEmpty() ? tr("Give the tablet to the second person.") : tr("%1, take the tablet.").arg(m_person);
    case Phase::Told:
        return tr("Not done.");
    }
    const Ask* ask = current();
    if (ask == nullptr) {
        return {};
    }
    if (ask->secret && m_secret_again) {
        return tr("The same PIN again.");
    }
    return ask->ask;
}

QString Sheet::why() const
{
    if (m_phase == Phase::Asking) {
        const Ask* ask = current();
        if (ask != nullptr && !ask->why.isEmpty()) {
            return ask->why;
        }
        return m_plan.why;
    }
    if (m_phase == Phase::Second || m_phase == Phase::First) {
        const QString lately = signedLately();
        return m_plan.means.isEmpty() || lately.isEmpty() ? m_plan.means + lately : m_plan.means + u'\n' + lately;
    }
    if (m_phase == Phase::Clock) {
        return tr("Every age is counted from this clock. Look at another one.");
    }
    return {};
}

QString Sheet::need() const
{
    const Ask* ask = current();
    if (ask == nullptr || m_yard == nullptr || ask->hand != Hand::Number || m_plan.gate || ask->secret || asksSecond()) {
        return {};
    }
    const Field& field = ask->fields[std::min(m_field, ask->fields.size() - 1)];
    const bool reading = field.dimension == quantity::Dimension::LimitShare || field.dimension == quantity::Dimension::VolumeShare;
    if (reading && m_pad.empty()) { // a reading is typed before its limit is shown
        return {};
    }
    return needOf(m_yard->pack(), field.fact, m_reading);
}

bool Sheet::outside() const
{
    const Ask* ask = current();
    if (ask == nullptr || m_yard == nullptr || ask->hand != Hand::Number || m_plan.gate || ask->secret || asksSecond() || m_pad.empty()) {
        return false;
    }
    const Field& field = ask->fields[std::min(m_field, ask->fields.size() - 1)];
    if (field.fact == rules::kNone) {
        return false;
    }
    if (field.dimension == quantity::Dimension::Number) {
        const auto whole = m_pad.whole();
        return whole && isOutside(m_yard->pack(), field.fact, *whole);
    }
    const auto recorded = quantity::record(m_pad.typed(), field.dimension);
    return recorded && isOutside(m_yard->pack(), field.fact, recorded->count);
}

bool Sheet::canTake() const
{
    switch (m_phase) {
    case Phase::Asking:
        break;
    case Phase::Cannot:
    case Phase::Clock:
        return !m_chosen.isEmpty();
    case Phase::First:
    case Phase::Second:
        return !m_person.isEmpty() && !m_pin.empty();
    case Phase::Told:
        return true;
    }
    const Ask* ask = current();
    if (ask == nullptr) {
        return false;
    }
    if (ask->optional && ask->hand == Hand::Number && m_pad.empty() && m_typed.empty() && !ask->secret) {
        return true;
    }
    switch (ask->hand) {
    case Hand::Number:
        if (ask->secret) {
            return !m_pin.empty();
        }
        if (ask->fields[m_field].dimension == quantity::Dimension::Number) {
            return m_pad.whole().has_value();
        }
        return m_pad.si().has_value();
    case Hand::Choice:
        return !m_chosen.isEmpty() || ask->optional;
    case Hand::Write:
        return ask->names_row || ask->optional || !m_written.trimmed().isEmpty();
    case Hand::File:
        return ask->optional || !m_written.isEmpty();
    case Hand::People:
    case Hand::Pin:
    case Hand::Told:
        return false;
    }
    return false;
}

QString Sheet::takeLabel() const
{
    switch (m_phase) {
    case Phase::Asking:
        break;
    case Phase::Cannot:
        return tr("Take this reason");
    case Phase::Clock:
        return tr("Go on");
    case Phase::First:
        return m_plan.gate && !m_plan.two ? tr("Hold to release") : tr("Sign");
    case Phase::Second:
        return m_plan.gate ? tr("Hold to release") : tr("Sign");
    case Phase::Told:
        return tr("Go back");
    }
    const Ask* ask = current();
    if (ask == nullptr) {
        return {};
    }
    if (ask->round && !asksSecond() && m_chosen.isEmpty()) {
        //: in place of "Take", where the answer's key takes it
        return tr("Press what it is");
    }
    QString value;
    switch (ask->hand) {
    case Hand::Number:
        if (ask->secret) {
            return m_secret_again ? tr("Take it") : tr("Type it again");
        }
        value = m_pad.said();
        if (ask->optional && m_pad.empty() && m_typed.empty()) {
            return tr("Go on without");
        }
        if (ask->fields.size() > 1) {
            QStringList said;
            for (std::size_t i = 0; i < ask->fields.size(); ++i) {
                const auto typed = m_typed.find(ask->fields[i].key);
                said.append(i == m_field         ? m_pad.shown()
                        : typed == m_typed.end() ? QString()
                                                 : QString::fromStdString(typed->second).section(u' ', 0, 0));
            }
            said.removeAll(QString());
            value = said.size() > 1 ? tr("%1 and %2").arg(said[0], said[1]) : m_pad.said();
        }
        break;
    case Hand::Choice:
        if (ask->optional && m_chosen.isEmpty()) {
            return tr("Go on without");
        }
        value = m_chosen.isEmpty() || ask->many ? QString() : tr("this");
        break;
    case Hand::Write:
        if (ask->names_row && m_written.trimmed().isEmpty()) {
            return tr("End the list");
        }
        if (ask->optional && m_written.trimmed().isEmpty()) {
            return tr("Go on without");
        }
        value = m_written.size() < 14 ? m_written : tr("this");
        break;
    case Hand::File:
        if (m_written.isEmpty() && ask->optional) {
            return tr("Go on without");
        }
        value = m_written.isEmpty() ? QString() : asksPhotograph() ? tr("this picture") : tr("this");
        break;
    case Hand::People:
    case Hand::Pin:
    case Hand::Told:
        break;
    }
    if (m_plan.gate || asksSecond()) {
        //: an answer at a hold point is said aloud, and so is the second person's own; %1 the value
        return value.isEmpty() ? tr("Say") : tr("Say %1").arg(value);
    }
    if (outside()) {
        //: a value outside its limit is taken, and holds the vessel
        return tr("Take %1: it holds").arg(value);
    }
    //: the black button takes the value that was typed
    return value.isEmpty() ? tr("Take") : tr("Take %1").arg(value);
}

QString Sheet::cannotLabel() const
{
    if (m_plan.waits && m_phase != Phase::Told) {
        return tr("Start again");
    }
    if (m_plan.gate || asksSecond() || m_phase == Phase::First || m_phase == Phase::Second || m_phase == Phase::Told) {
        return tr("Stop here");
    }
    return m_phase == Phase::Cannot || m_plan.cannot.empty() ? tr("Back") : tr("Cannot");
}

bool Sheet::canRefuse() const { return m_phase != Phase::Told; }

bool Sheet::holdToTake() const
{
    return m_plan.gate && (m_phase == Phase::Second || (m_phase == Phase::First && !m_plan.two)) && !m_person.isEmpty();
}

QString Sheet::pinCaption() const
{
    if (m_phase == Phase::Asking) {
        return m_secret_again ? tr("PIN again") : tr("New PIN, six digits or more");
    }
    //: over the dots of a PIN; %1 a person's name
    return tr("%1: PIN").arg(m_person);
}

BlindPicture Sheet::blind() const
{
    BlindPicture picture;
    print::BlindState& state = picture.state;
    state.questions = static_cast<int>(std::ranges::count_if(m_plan.asks, [](const Ask& ask) { return !ask.tag; }));
    for (std::size_t i = 0; i < m_plan.asks.size(); ++i) {
        state.answered += !m_plan.asks[i].tag && m_answers[i] ? 1 : 0;
    }
    const Ask* ask = current();
    state.asking = ask == nullptr || ask->tag ? -1 : state.answered;
    state.locks = m_plan.two ? 2 : 1;
    state.locked = m_first_entry ? 1 : 0;
    return picture;
}

} // namespace brimful::tablet
