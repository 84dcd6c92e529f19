#include "app/tablet/tag_page.h"

namespace brimful::tablet {

namespace {

QString word(print::Label label)
{
    switch (label) {
    case print::Label::Mm100x150:
        return QStringLiteral("100x150");
    case print::Label::A6:
        return QStringLiteral("A6");
    case print::Label::A4Two:
        return QStringLiteral("A4");
    }
    return {};
}

} // namespace

void TagDrawing::paint(QPainter* painter)
{
    if (m_tag.page && m_tag.pack != nullptr) {
        const QSizeF true_size = print::millimetres(print::Label::Mm100x150);
        const double per_mm = std::min(width() / true_size.width(), height() / true_size.height());
        const QRectF box((width() - true_size.width() * per_mm) / 2, 0, true_size.width() * per_mm, true_size.height() * per_mm);
        print::paintTag(*painter, *m_tag.page, *m_tag.pack, m_tag.reading, print::Palette::light(), box, per_mm);
    }
}

void TagDrawing::setTag(const TagPicture& tag)
{
    m_tag = tag;
    Q_EMIT tagChanged();
    update();
}

void TagPageModel::show(std::shared_ptr<const report::VesselView> view, const rules::Pack& pack, const text::Reading& reading)
{
    m_view = std::move(view);
    m_pack = &pack;
    m_reading = reading;
    m_tag = {};
    m_saved.clear();
    fillSizes();
    Q_EMIT changed();
}

void TagPageModel::setPrinted(const yard::PrintedTag& printed)
{
    auto page = std::make_shared<print::TagPage>();
    page->view = *m_view;
    page->symbol = printed.text;
    page->code = printed.code;
    page->serial = printed.serial;
    page->issued_ms = printed.facts.issued_ms;
    const std::string hex = canon::toHex(printed.facts.head);
    page->proof = hex.substr(0, 4) + ".." + hex.substr(hex.size() - 2);
    m_tag = {std::move(page), m_pack, m_reading};
    Q_EMIT changed();
}

void TagPageModel::setSaved(const QString& words)
{
    m_saved = words;
    Q_EMIT changed();
}

void TagPageModel::pickSize(const QString& key)
{
    for (const print::Label label : {print::Label::Mm100x150, print::Label::A6, print::Label::A4Two}) {
        if (word(label) == key) {
            m_label = label;
        }
    }
    fillSizes();
    Q_EMIT changed();
}

void TagPageModel::fillSizes()
{
    const auto row = [this](print::Label label, const QString& title, const QString& line) {
        Row one;
        one.key = word(label);
        one.title = title;
        one.line = line;
        one.chosen = label == m_label;
        return one;
    };
    m_sizes.set({row(print::Label::Mm100x150, tr("100 x 150"), tr("label")), row(print::Label::A6, tr("A6"), tr("card")),
        row(print::Label::A4Two, tr("A4"), tr("2 on a page"))});
}

QString TagPageModel::title() const
{
    if (!m_view) {
        return {};
    }
    //: %1 a vessel's number, %2 the tag's number
    return m_tag.page ? tr("Tag for %1, number %2.").arg(number(), serial()) : tr("A new tag for %1.").arg(number());
}

QString TagPageModel::takeOff() const
{
    if (!m_view || !m_view->newest_tag) {
        return {};
    }
    const bool same = m_tag.page && m_tag.page->serial == *m_view->newest_tag;
    const std::int64_t old = same ? *m_view->newest_tag - 1 : *m_view->newest_tag;
    //: an older tag hangs on the vessel; %1 its number
    return old < 1 ? QString() : tr("Take tag %1 off. It says what is no longer so.").arg(old);
}

QString TagPageModel::number() const { return m_view ? QString::fromStdString(m_view->number) : QString(); }
QString TagPageModel::serial() const { return m_tag.page ? QString::number(m_tag.page->serial) : QString(); }
QString TagPageModel::code() const { return m_tag.page ? QString::fromStdString(m_tag.page->code) : QString(); }

} // namespace brimful::tablet
