// The status tag: its preview, the label it is printed on, and what is written by hand on a card when there is no printer.
#pragma once

#include "app/tablet/painted.h"
#include "app/tablet/rows.h"
#include "core/yard/yard.h"

namespace brimful::tablet {

struct TagPicture {
    Q_GADGET
    QML_VALUE_TYPE(tagPicture)
public:
    std::shared_ptr<const print::TagPage> page;
    const rules::Pack* pack{};
    text::Reading reading;
    bool operator==(const TagPicture& other) const { return page == other.page; }
};

class TagDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::TagPicture tag READ tag WRITE setTag NOTIFY tagChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] TagPicture tag() const { return m_tag; }
    void setTag(const TagPicture& tag);

Q_SIGNALS:
    void tagChanged();

private:
    TagPicture m_tag;
};

class TagPageModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::TagPicture tag READ tag NOTIFY changed FINAL)
    Q_PROPERTY(bool printed READ isPrinted NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    Q_PROPERTY(QString takeOff READ takeOff NOTIFY changed FINAL) // the tag that hangs there now
    Q_PROPERTY(QString number READ number NOTIFY changed FINAL)
    Q_PROPERTY(QString serial READ serial NOTIFY changed FINAL)
    Q_PROPERTY(QString code READ code NOTIFY changed FINAL)
    Q_PROPERTY(QString saved READ saved NOTIFY changed FINAL) // where the file went, or why it did not
    Q_PROPERTY(brimful::tablet::RowList* sizes READ sizes CONSTANT FINAL)

public:
    using QObject::QObject;
    void show(std::shared_ptr<const report::VesselView> view, const rules::Pack& pack, const text::Reading& reading);
    void setPrinted(const yard::PrintedTag& printed);
    void setSaved(const QString& words);
    Q_INVOKABLE void pickSize(const QString& key);
    [[nodiscard]] print::Label label() const { return m_label; }
    [[nodiscard]] const print::TagPage* page() const { return m_tag.page.get(); }

    [[nodiscard]] TagPicture tag() const { return m_tag; }
    [[nodiscard]] bool isPrinted() const { return m_tag.page != nullptr; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString takeOff() const;
    [[nodiscard]] QString number() const;
    [[nodiscard]] QString serial() const;
    [[nodiscard]] QString code() const;
    [[nodiscard]] QString saved() const { return m_saved; }
    [[nodiscard]] RowList* sizes() { return &m_sizes; }

Q_SIGNALS:
    void changed();

private:
    void fillSizes();
    std::shared_ptr<const report::VesselView> m_view;
    const rules::Pack* m_pack{};
    text::Reading m_reading;
    TagPicture m_tag;
    print::Label m_label{print::Label::Mm100x150};
    QString m_saved;
    RowList m_sizes;
};

} // namespace brimful::tablet
