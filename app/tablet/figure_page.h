// What if: the vessel tilted and rolled, what stays trapped, how heavy it gets. A plan; nothing is recorded.
#pragma once

#include "app/tablet/picture.h"
#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/evidence/fold.h"
#include "core/figure/figure.h"

namespace brimful::tablet {

class FigurePage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(QString pocket READ pocket NOTIFY changed FINAL)
    Q_PROPERTY(QString pocketTitle READ pocketTitle NOTIFY changed FINAL)
    Q_PROPERTY(QString burns READ burns NOTIFY changed FINAL)
    Q_PROPERTY(QString pitch READ pitch NOTIFY changed FINAL)
    Q_PROPERTY(QString roll READ roll NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::RowList* lines READ lines CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* openings READ openings CONSTANT FINAL)

public:
    using QObject::QObject;
    void show(const VesselPicture& picture, const figure::Reference& reference, const text::Reading& reading);
    Q_INVOKABLE void tilt(int steps); // tenths of a degree
    Q_INVOKABLE void turn(int steps);
    Q_INVOKABLE void toggle(const QString& opening); // open, plugged: only here
    Q_INVOKABLE void setToBest();

    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    [[nodiscard]] QString pocket() const { return m_pocket; }
    [[nodiscard]] QString pocketTitle() const { return m_pocket_title; }
    [[nodiscard]] QString burns() const { return m_burns; }
    [[nodiscard]] QString pitch() const;
    [[nodiscard]] QString roll() const;
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] RowList* lines() { return &m_lines; }
    [[nodiscard]] RowList* openings() { return &m_openings; }

Q_SIGNALS:
    void changed();

private:
    [[nodiscard]] canon::Json inputs() const;
    void compute();
    VesselPicture m_real, m_picture;
    figure::Reference m_reference;
    text::Reading m_reading;
    int m_pitch{}, m_roll{}; // tenths of a degree
    std::vector<report::OpeningView> m_as_if;
    QString m_pocket, m_pocket_title, m_burns, m_message;
    RowList m_lines, m_openings;
};

} // namespace brimful::tablet
