// One vessel: its drawing, the named parts round it, the run of gates, what holds it, and the one thing to do next.
#pragma once

#include "app/tablet/picture.h"
#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/evidence/fold.h"

namespace brimful::tablet {

class VesselPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(QString spoken READ spoken NOTIFY changed FINAL) // the drawing in one sentence
    Q_PROPERTY(brimful::tablet::RowList* openings READ openings CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* left READ left CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* right READ right CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* gates READ gates CONSTANT FINAL)
    Q_PROPERTY(QStringList gateNames READ gateNames NOTIFY changed FINAL)
    Q_PROPERTY(QString reason READ reason NOTIFY changed FINAL)
    Q_PROPERTY(QString remedy READ remedy NOTIFY changed FINAL)
    Q_PROPERTY(QString who READ who NOTIFY changed FINAL)
    Q_PROPERTY(QString glyph READ glyph NOTIFY changed FINAL)
    Q_PROPERTY(QString button READ button NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL) // what the last entry changed
    Q_PROPERTY(brimful::tablet::RowList* held READ held CONSTANT FINAL) // all reasons
    Q_PROPERTY(brimful::tablet::RowList* stage READ stage CONSTANT FINAL) // steps of one reach
    Q_PROPERTY(QString stageName READ stageName NOTIFY changed FINAL)

public:
    using QObject::QObject;
    void show(std::shared_ptr<const report::VesselView> view, const rules::Pack& pack, const text::Reading& reading);
    void showStage(std::size_t stage, const evidence::Folded& folded, const rules::Pack& pack, const text::Reading& reading);
    void say(const QString& message);

    // What the black button leads to: the blocker's step, a stop to answer, or a hold point.
    struct Target {
        enum class What : std::uint8_t { Nothing, Step, Stop, HoldPoint, Clock, Trail } what{What::Nothing};
        rules::Index index{rules::kNone};
    };
    [[nodiscard]] Target target() const { return m_target; }
    [[nodiscard]] static Target targetOf(const report::VesselView& view, const rules::Blocker& blocker);
    [[nodiscard]] const report::VesselView* view() const { return m_picture.view.get(); }

    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    [[nodiscard]] QString spoken() const { return m_spoken; }
    [[nodiscard]] RowList* openings() { return &m_openings; }
    [[nodiscard]] RowList* left() { return &m_left; }
    [[nodiscard]] RowList* right() { return &m_right; }
    [[nodiscard]] RowList* gates() { return &m_gates; }
    [[nodiscard]] QStringList gateNames() const { return m_gate_names; }
    [[nodiscard]] QString reason() const { return m_reason; }
    [[nodiscard]] QString remedy() const { return m_remedy; }
    [[nodiscard]] QString who() const { return m_who; }
    [[nodiscard]] QString glyph() const { return m_glyph; }
    [[nodiscard]] QString button() const { return m_button; }
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] RowList* held() { return &m_held; }
    [[nodiscard]] RowList* stage() { return &m_stage; }
    [[nodiscard]] QString stageName() const { return m_stage_name; }

Q_SIGNALS:
    void changed();

private:
    void fillParts(const rules::Pack& pack, const text::Reading& reading);
    void fillCard(const rules::Pack& pack, const text::Reading& reading);
    void fillHeld(const rules::Pack& pack, const text::Reading& reading);
    void fillGates(const rules::Pack& pack, const text::Reading& reading);
    [[nodiscard]] Row part(const QString& id, const QString& title, const QString& value, bool fallback) const;

    VesselPicture m_picture;
    Target m_target;
    QString m_spoken, m_reason, m_remedy, m_who, m_glyph, m_button, m_message, m_stage_name;
    QStringList m_gate_names;
    RowList m_openings, m_left, m_right, m_gates, m_held, m_stage;
};

} // namespace brimful::tablet
