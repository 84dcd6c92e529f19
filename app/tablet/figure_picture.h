// A figure's picture on the screen: painted by the figure's own painter, moved by a finger.
#pragma once

#include "app/tablet/painted.h"

#include <functional>

namespace brimful::tablet {

// What a painter is given. Sizes of lines and letters are in units of a 1280 px screen, times `u`.
struct Canvas {
    QPainter& painter;
    const print::Palette& palette;
    double u{1.0};
    QSizeF size;
};

// A painter with what it paints: it holds its own copy of that, so that it may run while the page goes on.
struct FigurePicture {
    Q_GADGET
    QML_VALUE_TYPE(figurePicture)
public:
    using Paint = std::function<void(const Canvas&)>;
    std::shared_ptr<const Paint> paint; // null: nothing to show
    bool operator==(const FigurePicture& other) const { return paint == other.paint; }
};

class FigureDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::FigurePicture picture READ picture WRITE setPicture NOTIFY pictureChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] FigurePicture picture() const { return m_picture; }
    void setPicture(const FigurePicture& picture);

Q_SIGNALS:
    void pictureChanged();

private:
    FigurePicture m_picture;
};

} // namespace brimful::tablet
