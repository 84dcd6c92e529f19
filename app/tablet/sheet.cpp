#include "app/tablet/sheet.h"

#include "core/quantity/recorded.h"

#include <algorithm>

namespace brimful::tablet {

using canon::Json;

namespace {

constexpr qint64 kAnswerWithinMs = 2 * 60 * 1000; // a talk without an answer starts again
constexpr qint64 kTalkWithinMs = 10 * 60 * 1000;
constexpr qint64 kBounceMs = 400; // a finger that bounces answers one place of a round, not two. Mark: proposal

// "20.9" of "20.9 %": what a box of the round has room for.
QString shortTyped(const Json& values, const Field& field)
{
    return QString::fromStdString(std::string(values.textOf(field.key))).section(u' ', 0, 0);
}

} // namespace

Sheet::Sheet(QObject* parent)
    : QObject(parent)
{
    connect(&m_pad, &Pad::changed, this, [this] {
        if (m_phase == Phase::Asking) {
            m_touched.restart();
            fillFields();
            Q_EMIT changed();
        }
    });
    connect(this, &Sheet::changed, this, &Sheet::tendCamera);
    connect(&m_camera, &Camera::looked, this, [this] {
        if (asksTag()) { // after the frame: what it answers may close the camera
            QMetaObject::invokeMethod(this, &Sheet::readTagSeen, Qt::QueuedConnection);
            return;
        }
        judge(m_camera.seen());
        Q_EMIT changed();
    });
}

void Sheet::open(Plan plan, yard::Yard* yard, const VesselPicture& picture, const text::Reading& reading)
{
    m_plan = std::move(plan);
    m_yard = yard;
    m_picture = picture;
    m_reading = reading;
    m_phase = Phase::Asking;
    m_at = 0;
    m_answers.assign(m_plan.asks.size(), std::nullopt);
    m_cannot.clear();
    m_message.clear();
    m_draft_note.clear();
    m_tag_seen.clear();
    m_chalk.clear();
    m_chalk_at.reset();
    m_mismatches = 0;
    m_second_ask.reset();
    m_second_answer = {};
    m_secret.clear();
    m_secret_again = false;
    m_person.clear();
    m_pin.clear();
    m_confirm_clock = false;
    m_written_entry = false;
    m_first_signing.reset();
    m_first_entry.reset();
    m_first_person.clear();
    m_touched.start();
    m_opened.start();
    m_pressed.invalidate();
    if (m_plan.waits) {
        m_first_entry = m_plan.waits->first;
        m_first_person = m_plan.waits->person;
        m_plan.asks.swap(m_plan.waits->asks);
        m_answers.clear();
        for (const QString& said : m_plan.waits->said) {
            m_answers.emplace_back(Answer{{}, said});
        }
        m_at = m_answers.size();
        m_message = tr("%1 signed. A second signature is missing.").arg(m_first_person);
        beginSecond();
        return;
    }
    readDraft();
    if (m_plan.asks.empty()) {
        beginSigning();
        return;
    }
    showAsk();
}

void Sheet::close()
{
    if (m_phase == Phase::Asking && !asksSecond()) {
        saveDraft();
    }
    std::ranges::fill(m_pin, '\0');
    m_pin.clear();
    if (m_yard != nullptr) {
        m_yard->expectPin({}, {});
    }
    m_first_signing.reset();
    m_by_camera = false;
    m_camera.run(false);
    dropStills();
    if (m_plan.closed) {
        const auto closed = m_plan.closed;
        closed(m_written_entry);
    }
}

const Ask* Sheet::current() const
{
    if (asksSecond()) {
        return &*m_second_ask;
    }
    return m_phase == Phase::Asking && m_at < m_plan.asks.size() ? &m_plan.asks[m_at] : nullptr;
}

bool Sheet::isOfSecond(const Ask& ask) const
{
    return asksSecond() && ask.member == m_second_ask->member
        && std::ranges::find(ask.fields, m_second_ask->fields.front().fact, &Field::fact) != ask.fields.end();
}

void Sheet::showAsk()
{
    m_chosen.clear();
    m_written.clear();
    m_typed.clear();
    m_field = 0;
    const Ask* ask = current();
    if (ask != nullptr) {
        if (ask->hand == Hand::Number && !ask->secret) {
            m_pad.ask(ask->fields.front().caption, ask->fields.front().dimension, m_reading);
        }
        if (ask->hand == Hand::Choice) {
            fillOptions(ask->options, ask->many);
        } else {
            std::vector<Option> phrases;
            for (const QString& phrase : ask->phrases) {
                phrases.push_back({phrase.toStdString(), phrase, {}});
            }
            fillOptions(phrases, false);
        }
    }
    m_pin.clear();
    fillFields();
    fillAnswered();
    fillPlaces();
    m_by_camera = ask != nullptr && (ask->hand == Hand::File || ask->tag) && m_camera.there();
    drawChalk();
    lookForPictures();
    Q_EMIT changed();
}

void Sheet::fillOptions(const std::vector<Option>& options, bool many)
{
    std::vector<Row> rows;
    const QStringList chosen = many ? m_chosen.split(u'\n') : QStringList(m_chosen);
    for (const Option& option : options) {
        Row row;
        row.key = QString::fromStdString(option.word);
        row.title = option.title;
        row.line = option.line;
        row.chosen = !m_chosen.isEmpty() && chosen.contains(row.key);
        rows.push_back(std::move(row));
    }
    m_options.set(std::move(rows));
}

void Sheet::fillFields()
{
    std::vector<Row> rows;
    const Ask* ask = current();
    if (ask != nullptr && ask->hand == Hand::Number && ask->fields.size() > 1) {
        for (std::size_t i = 0; i < ask->fields.size(); ++i) {
            const Field& field = ask->fields[i];
            Row row;
            row.key = QString::fromStdString(field.key);
            row.title = field.caption;
            row.chosen = i == m_field;
            const auto typed = m_typed.find(field.key);
            row.line = row.chosen ? m_pad.shown() : QString();
            row.note = row.chosen
                ? m_pad.unitWord()
                : unitShown(field.dimension == quantity::Dimension::LimitShare ? QStringLiteral("%LEL") : QStringLiteral("%"));
            if (!row.chosen && typed != m_typed.end()) {
                row.line = QString::fromStdString(typed->second).section(u' ', 0, 0);
            }
            rows.push_back(std::move(row));
        }
    }
    m_fields.set(std::move(rows));
}

void Sheet::fillAnswered()
{
    std::vector<Row> rows;
    int question = 0;
    for (std::size_t i = 0; i < m_plan.asks.size(); ++i) {
        question += m_plan.asks[i].tag ? 0 : 1;
        const bool hidden = isOfSecond(m_plan.asks[i]);
        if (m_answers[i] && m_plan.asks[i].member.empty() && !m_plan.asks[i].secret && !m_plan.asks[i].tag && !hidden) {
            Row row;
            row.key = QString::number(i);
            row.title = m_plan.asks[i].ask;
            row.line = m_answers[i]->said;
            row.note = QString::number(question);
            rows.push_back(std::move(row));
        }
    }
    for (std::size_t i = 0; i < m_plan.asks.size(); ++i) {
        if (m_answers[i] && !m_plan.asks[i].member.empty() && !isOfSecond(m_plan.asks[i])) {
            Row row;
            row.key = QString::number(i);
            row.title = m_plan.asks[i].ask;
            row.line = m_answers[i]->said;
            rows.push_back(std::move(row));
        }
    }
    m_answered.set(std::move(rows));
}

// The round of places: one box a place, solid when taken. The second person is not shown what was read.
void Sheet::fillPlaces()
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < m_plan.asks.size() && !asksSecond() && !m_plan.waits; ++i) {
        const Ask& ask = m_plan.asks[i];
        const bool pair = ask.fields.size() > 1;
        if (ask.member.empty() || (!pair && !ask.round)) {
            continue;
        }
        Row row;
        row.key = QString::number(i);
        row.title = QString::number(rows.size() + 1);
        row.solid = m_answers[i].has_value();
        row.chosen = i == m_at && m_phase == Phase::Asking;
        if (m_answers[i] && pair) { // oxygen, then gas; a word has no room there
            row.line = shortTyped(m_answers[i]->value, ask.fields[0]);
            row.note = shortTyped(m_answers[i]->value, ask.fields[1]);
        } else if (!m_answers[i]) {
            //: a place where nothing was read yet
            row.note = tr("no");
        }
        rows.push_back(std::move(row));
    }
    m_places.set(std::move(rows));
}

void Sheet::choose(const QString& key)
{
    m_touched.restart();
    if (m_phase == Phase::Cannot || m_phase == Phase::Clock) {
        m_chosen = key;
        std::vector<Row> rows = m_options.rows();
        for (Row& row : rows) {
            row.chosen = row.key == key;
        }
        m_options.set(std::move(rows));
        Q_EMIT changed();
        return;
    }
    const Ask* ask = current();
    if (ask == nullptr || (ask->round && m_pressed.isValid() && m_pressed.elapsed() < kBounceMs)) {
        return;
    }
    if (ask->hand == Hand::Write) {
        setWritten(key);
        return;
    }
    if (ask->many) {
        QStringList chosen = m_chosen.isEmpty() ? QStringList() : m_chosen.split(u'\n');
        if (chosen.contains(key)) {
            chosen.removeAll(key);
        } else {
            chosen.append(key);
        }
        m_chosen = chosen.join(u'\n');
    } else {
        m_chosen = key;
    }
    fillOptions(ask->options, ask->many);
    if (ask->round && !asksSecond()) {
        m_pressed.start();
        take();
        return;
    }
    Q_EMIT changed();
}

void Sheet::pickField(const QString& key)
{
    const Ask* ask = current();
    if (ask == nullptr || ask->hand != Hand::Number || ask->fields.size() < 2) {
        return;
    }
    if (!m_pad.empty()) {
        m_typed[ask->fields[m_field].key] = m_pad.typed();
    }
    for (std::size_t i = 0; i < ask->fields.size(); ++i) {
        if (QString::fromStdString(ask->fields[i].key) == key) {
            m_field = i;
            const auto before = m_typed.find(ask->fields[i].key);
            const std::string typed = before == m_typed.end() ? std::string() : before->second;
            m_pad.ask(ask->fields[i].caption, ask->fields[i].dimension, m_reading);
            if (!typed.empty()) {
                m_pad.put(typed);
            }
        }
    }
    fillFields();
    Q_EMIT changed();
}

void Sheet::setWritten(const QString& text)
{
    if (text != m_written) {
        m_touched.restart();
        m_written = text;
        Q_EMIT changed();
    }
}

bool Sheet::takeScan(const QString& text)
{
    if (hand() == Kind::People && m_yard != nullptr) {
        const QString name = QString::fromStdString(m_yard->personOfBadge(text.toStdString()));
        const std::vector<Row> may = m_people.rows();
        if (std::ranges::find(may, name, &Row::key) == may.end()) {
            return false;
        }
        pickPerson(name);
        return true;
    }
    const Ask* ask = current();
    if (ask != nullptr && ask->tag) {
        setWritten(text);
        take();
        return true;
    }
    const std::vector<Row> options = m_options.rows();
    const auto label = std::ranges::find(options, text, &Row::key);
    if (ask != nullptr && ask->hand == Hand::Choice && ask->instrument && label != options.end()) {
        choose(text);
        return true;
    }
    return false;
}

void Sheet::type(const QString& letter) { setWritten(m_written + letter); }

void Sheet::eraseLetter() { setWritten(m_written.chopped(std::min<qsizetype>(1, m_written.size()))); }

void Sheet::takeAnswer()
{
    const Ask* ask = current();
    if (ask == nullptr || !canTake()) {
        return;
    }
    m_message.clear();
    const bool nothing = ask->hand == Hand::Number ? m_pad.empty()
        : ask->hand == Hand::Choice                ? m_chosen.isEmpty()
                                                   : m_written.trimmed().isEmpty();
    if (ask->optional && nothing && !ask->secret && !ask->names_row && m_typed.empty()) {
        m_answers[m_at].reset();
        ++m_at;
        next();
        return;
    }
    switch (ask->hand) {
    case Hand::Number:
        takeNumber(*ask);
        return;
    case Hand::Choice: {
        Answer answer;
        answer.value = Json(m_chosen.toStdString());
        QStringList said;
        for (const Row& row : m_options.rows()) {
            if (row.chosen) {
                said.append(row.title);
            }
        }
        answer.said = said.join(QStringLiteral(", "));
        store(*ask, std::move(answer));
        return;
    }
    case Hand::Write:
        if (ask->names_row) {
            nameRow();
            return;
        }
        store(*ask, {Json(m_written.trimmed().toStdString()), m_written.trimmed()});
        return;
    case Hand::File: {
        //: where a picture came from when it was not taken here
        const QString from = isStill(m_written) ? tr("taken here") : tr("%1, from a file").arg(m_written.section(u'/', -1));
        store(*ask, {Json(m_written.toStdString()), m_check.isEmpty() ? from : from + QStringLiteral(". ") + m_check, chalk()});
        return;
    }
    case Hand::People:
    case Hand::Pin:
    case Hand::Told:
        return;
    }
}

void Sheet::takeNumber(const Ask& ask)
{
    if (ask.secret) {
        if (!m_secret_again) {
            m_secret = m_pin;
            m_secret_again = true;
            m_pin.clear();
            Q_EMIT changed();
            return;
        }
        const bool same = m_secret == m_pin;
        m_secret_again = false;
        m_pin.clear();
        if (!same || !people::isStrongPin(m_secret)) {
            m_message = same ? tr("Too easy to guess: six digits or more, no run, no date.") : tr("Not the same twice. Once more.");
            m_secret.clear();
            Q_EMIT changed();
            return;
        }
        store(ask, {Json(std::string()), tr("typed twice")});
        return;
    }
    if (ask.fields.size() > 1) {
        m_typed[ask.fields[m_field].key] = m_pad.typed();
        for (const Field& field : ask.fields) {
            if (!m_typed.contains(field.key)) {
                pickField(QString::fromStdString(field.key));
                return;
            }
        }
    }
    Answer answer;
    if (ask.fields.size() > 1) {
        answer.value = Json::object();
        QStringList said;
        for (const Field& field : ask.fields) {
            answer.value.set(field.key, m_typed[field.key]);
            said.append(QString::fromStdString(m_typed[field.key]).section(u' ', 0, 0));
        }
        //: oxygen and gas of one place: "20.9 and 0"
        answer.said = tr("%1 and %2").arg(said.value(0), said.value(1));
    } else if (ask.fields.front().dimension == quantity::Dimension::Number) {
        answer.value = Json(m_pad.whole().value_or(0));
        answer.said = m_pad.said();
    } else {
        answer.value = Json(m_pad.typed());
        answer.said = m_pad.said();
    }
    store(ask, std::move(answer));
}

void Sheet::store(const Ask& ask, Answer answer)
{
    if (asksSecond()) {
        storeOfSecond(std::move(answer));
        return;
    }
    if (m_plan.gate && m_plan.agrees && !m_plan.agrees(ask, answer.value)) {
        ++m_mismatches;
        m_message = ask.tag    ? tr("Not the newest tag of this vessel. Go and look.")
            : m_mismatches > 1 ? tr("Again not what the record says. Stop here: go and look.")
                               : tr("Not what the record says. Go and look.");
        showAsk();
        return;
    }
    m_answers[m_at] = std::move(answer);
    ++m_at;
    next();
}

void Sheet::storeOfSecond(Answer answer)
{
    if (const auto fits = m_plan.fits(*m_first_entry, answer.value); !fits) {
        const bool differs = fits.error().why == report::Why::AnswerDiffers;
        m_mismatches += differs ? 1 : 0;
        m_message = differs && m_mismatches > 1 ? tr("Again not what the record says. Stop here: go and look.")
                                                : text::refusal(fits.error(), &m_yard->pack());
        showAsk();
        return;
    }
    m_second_answer = std::move(answer.value);
    m_phase = Phase::Second;
    fillAnswered();
    fillPlaces();
    fillPeople(true);
    Q_EMIT changed();
}

void Sheet::nameRow()
{
    const std::string name = m_written.trimmed().toStdString();
    if (name.empty()) {
        m_answers[m_at] = Answer{Json::array(), tr("end of the list")};
        ++m_at;
        next();
        return;
    }
    const rules::Pack& pack = m_yard->pack();
    const rules::Index table = m_plan.reg;
    std::vector<Ask> rows = rowAsks(pack, pack.registers[table], name, m_yard->state(), m_reading);
    const auto at = static_cast<std::ptrdiff_t>(m_at);
    m_plan.asks.insert(m_plan.asks.begin() + at, rows.begin(), rows.end());
    m_answers.insert(m_answers.begin() + at, rows.size(), std::nullopt);
    next();
}

void Sheet::next()
{
    m_mismatches = 0;
    saveDraft();
    if (m_at >= m_plan.asks.size()) {
        beginSigning();
        return;
    }
    showAsk();
}

bool Sheet::stepBack()
{
    if (m_phase == Phase::Cannot) {
        m_phase = Phase::Asking;
        showAsk();
        return true;
    }
    if (m_phase != Phase::Asking || m_at == 0 || m_plan.gate || asksSecond()) {
        return false;
    }
    --m_at;
    showAsk();
    return true;
}

void Sheet::startOver()
{
    m_at = 0;
    m_second_ask.reset();
    m_first_entry.reset(); // the first signature releases nothing by itself, and dies of age
    m_answers.assign(m_plan.asks.size(), std::nullopt);
    m_phase = Phase::Asking;
    m_message = tr("Start at 1: you were away.");
    m_touched.restart();
    m_opened.restart();
    showAsk();
}

void Sheet::tick()
{
    const bool talking = m_plan.gate && m_phase == Phase::Asking && m_at > 0;
    if (talking && (m_touched.elapsed() > kAnswerWithinMs || m_opened.elapsed() > kTalkWithinMs)) {
        startOver();
    }
}

Filled Sheet::filled() const
{
    Filled out;
    out.cannot = m_cannot;
    out.secret = m_secret;
    for (std::size_t i = 0; i < m_plan.asks.size(); ++i) {
        const Ask& ask = m_plan.asks[i];
        if (ask.names_row && out.facts.find(ask.into) == nullptr && m_answers[i]) {
            out.facts.set(ask.into, Json::array());
        }
        if (!m_answers[i] || ask.names_row) {
            continue;
        }
        const Json& value = m_answers[i]->value;
        if (ask.instrument) {
            out.instrument = value.text;
        } else if (ask.tag) {
            out.tag = value.text;
        } else if (ask.hand == Hand::File) {
            out.files[ask.into] = value.text;
            out.taken[ask.into] = {isStill(QString::fromStdString(value.text)), m_answers[i]->chalk.toStdString()};
        } else if (ask.member.empty()) {
            if (!ask.secret) {
                out.facts.set(ask.into, value);
            }
        } else {
            Json rows = out.facts.find(ask.into) == nullptr ? Json::array() : *out.facts.find(ask.into);
            const auto named = [&](const Json& row) { return row.textOf("name") == ask.member; };
            auto row = std::ranges::find_if(rows.items, named);
            if (row == rows.items.end()) {
                Json fresh = Json::object();
                fresh.set("name", ask.member);
                rows.items.push_back(std::move(fresh));
                row = rows.items.end() - 1;
            }
            if (value.is(canon::Type::Object)) {
                for (const canon::Member& member : value.members) {
                    row->set(member.key, member.value);
                }
            } else {
                row->set(ask.fields.front().key, value);
            }
            out.facts.set(ask.into, std::move(rows));
        }
    }
    return out;
}

} // namespace brimful::tablet
