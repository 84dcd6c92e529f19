// A photograph or a paper that a sheet asks for, and the tag that the camera reads. What would not be kept is said where it is
// picked, not after the PIN.
#include "app/tablet/sheet.h"

#include <QDir>
#include <QFile>
#include <QRandomGenerator>

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
        m_check.clear();
        m_tag_there = false;
        m_photographs.look(!asksPhotograph(), m_yard->now().wall_ms, m_reading);
        Q_EMIT changed();
    }
}

void Sheet::useCamera(bool on)
{
    m_touched.restart();
    m_message.clear();
    m_by_camera = on && m_camera.there();
    lookForPictures();
    Q_EMIT changed();
}

bool Sheet::asksTag() const
{
    const Ask* ask = current();
    return ask != nullptr && ask->tag;
}

// Each symbol answers once: one that is not the tag is not refused again with every frame.
void Sheet::readTagSeen()
{
    const QString seen = QString::fromStdString(m_camera.seen().symbol.value_or(std::string()));
    if (m_by_camera && asksTag() && !seen.isEmpty() && seen != m_tag_seen) {
        m_tag_seen = seen;
        takeScan(seen);
    }
}

// It runs only while somebody looks through it.
void Sheet::tendCamera() { m_camera.run(m_by_camera && (asksTag() || (hand() == Kind::File && m_written.isEmpty()))); }

QString Sheet::stills() const { return QString::fromStdString((m_yard->folder() / "device" / "stills").string()); }

bool Sheet::isStill(const QString& path) const { return m_yard != nullptr && QFileInfo(path).path() == QDir::cleanPath(stills()); }

// A number of its own for each ask, by chance: nobody can have written it down before.
void Sheet::drawChalk()
{
    if (asksPhotograph() && m_picture.view && m_chalk_at != m_at) {
        constexpr int kNumbers = 10'000;
        m_chalk_at = m_at;
        m_chalk = QString::number(QRandomGenerator::system()->bounded(kNumbers)).rightJustified(ledger::kChalkDigits, u'0');
        saveDraft(); // the same number after a dead battery
    }
}

QString Sheet::chalk() const { return asksPhotograph() && m_picture.view && m_chalk_at == m_at && !m_tag_there ? m_chalk : QString(); }

void Sheet::pickFile(const QString& path)
{
    m_touched.restart();
    m_written.clear();
    m_check.clear();
    m_tag_there = false;
    QString resembles;
    m_message = path.isEmpty() ? QString() : whyNot(path, resembles);
    if (m_message.isEmpty()) {
        m_written = path;
    }
    m_photographs.pick(m_written, isStill(path) ? tr("Taken here") : QString());
    if (const QImage picture = m_photographs.picked().isEmpty() ? QImage() : pictureAt(m_written); !picture.isNull()) {
        judge(print::lookAt(picture));
    }
    if (!resembles.isEmpty()) {
        m_check = m_check.isEmpty() ? resembles : resembles + u' ' + m_check;
        m_check_warns = true;
    }
    Q_EMIT changed();
}

void Sheet::shoot()
{
    const QImage still = m_camera.newest();
    if (still.isNull() || m_yard == nullptr || !m_by_camera) {
        return;
    }
    constexpr int kQuality = 92;
    const QDir folder(stills());
    const QString path = folder.filePath(QStringLiteral("%1-%2.jpg").arg(m_yard->nowMs()).arg(m_stills.size()));
    if (!folder.mkpath(QStringLiteral(".")) || !still.save(path, "jpg", kQuality)) {
        m_message = tr("Not taken: it could not be kept. Make room on this tablet, or pick a file.");
        Q_EMIT changed();
        return;
    }
    m_stills.append(path);
    pickFile(path);
}

void Sheet::dropStills()
{
    for (const QString& still : m_written_entry ? m_stills : QStringList()) { // a draft may still name them
        QFile::remove(still);
    }
    m_stills.clear();
}

// Said, never refused: a photograph that shows little is better than none.
void Sheet::judge(const print::Seen& seen)
{
    m_check.clear();
    m_tag_there = false;
    m_check_warns = true;
    const Ask* ask = current();
    if (ask == nullptr || !asksPhotograph() || !m_picture.view) {
        return;
    }
    const auto tag = seen.symbol ? m_yard->readTag(*seen.symbol) : tl::make_unexpected(report::Refusal{});
    const QString number = QString::fromStdString(m_picture.view->number);
    m_tag_there = tag && tag->genuine && tag->as_printed && tag->vessel == m_picture.view->number;
    if (seen.dark()) {
        m_check = tr("Too dark. Bring a light.");
    } else if (m_tag_there) {
        m_check_warns = !tag->newest;
        //: %1 a vessel's number, %2 a tag's
        const QString there = tr("The tag of %1, number %2, is in the picture.").arg(number).arg(tag->as_printed->serial);
        m_check = tag->newest ? there : there + u' ' + tr("It is not the newest.");
    } else if (tag && tag->genuine && !tag->vessel.empty()) {
        //: %1 and %2 vessels' numbers
        m_check = tr("That is the tag of %1, not of %2.").arg(QString::fromStdString(tag->vessel), number);
    } else if (seen.symbol) {
        m_check = tr("A symbol is in the picture, and no tag of this yard.");
    } else if (seen.blurred()) {
        m_check = tr("Blurred. Hold still, or wipe the glass.");
    } else {
        //: %1 a vessel's number
        m_check = tr("No tag of %1 in the picture. Get it in if it can be.").arg(number);
    }
}

// A new picture may honestly look like an old one: said, and recorded, never refused.
QString Sheet::whyNot(const QString& path, QString& resembles) const
{
    for (std::size_t i = 0; i < m_answers.size() && asksPhotograph(); ++i) {
        if (i != m_at && m_plan.asks[i].hand == Hand::File && m_answers[i] && m_answers[i]->value.text == path.toStdString()) {
            return tr("Not taken: this sheet has that picture already. One picture proves one thing: take a new one.");
        }
    }
    const Ask* ask = current();
    if (m_yard == nullptr || ask == nullptr) {
        return {};
    }
    const rules::Pack& pack = m_yard->pack();
    const rules::Index fact = ask->fields.front().fact;
    const rules::Index step = fact == rules::kNone ? rules::kNone : pack.facts[fact].step;
    const auto kept = m_yard->mayKeep(path.toStdString(), asksPhotograph(), m_picture.view ? m_picture.view->number : std::string(),
        step == rules::kNone ? std::string() : pack.steps[step].id);
    if (!kept) {
        return whyNotTaken(kept.error());
    }
    if (*kept) {
        const yard::Alike& other = **kept;
        //: %1 a vessel's number, %2 a step's title, %3 date and time
        resembles = tr("It looks like the picture of %1, %2, of %3. Take a new one; if this is taken, the record says so.")
                        .arg(other.vessel.empty() ? tr("the yard") : QString::fromStdString(other.vessel),
                            text::stepTitle(pack, pack.step(other.step)), text::dateTime(other.at_ms, m_reading));
    }
    return {};
}

} // namespace brimful::tablet
