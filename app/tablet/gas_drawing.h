// Gas on the screen: the flammability triangle with the way through it, and the share over time. The numbers are the figure's; this
// paints them and their labels.
#pragma once

#include "app/tablet/painted.h"

namespace brimful::tablet {

// An answer of `gas-to-air`, its picture a triangle or the share over time; nothing where there is none.
struct GasPicture {
    Q_GADGET
    QML_VALUE_TYPE(gasPicture)
public:
    std::shared_ptr<const figure::Result> result;
    QString gas; // its name
    bool over_time{};
    bool operator==(const GasPicture& other) const { return result == other.result && gas == other.gas && over_time == other.over_time; }
};

class GasDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::GasPicture picture READ picture WRITE setPicture NOTIFY pictureChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] GasPicture picture() const { return m_picture; }
    void setPicture(const GasPicture& picture);

Q_SIGNALS:
    void pictureChanged();

private:
    GasPicture m_picture;
};

} // namespace brimful::tablet
