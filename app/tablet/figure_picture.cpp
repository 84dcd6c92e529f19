#include "app/tablet/figure_picture.h"

namespace brimful::tablet {

void FigureDrawing::paint(QPainter* painter)
{
    if (m_picture.paint) {
        painter->setRenderHint(QPainter::Antialiasing);
        const print::Palette colours = palette();
        (*m_picture.paint)({*painter, colours, unit(), QSizeF(width(), height())});
    }
}

void FigureDrawing::setPicture(const FigurePicture& picture)
{
    if (!(picture == m_picture)) {
        m_picture = picture;
        Q_EMIT pictureChanged();
        update();
    }
}

} // namespace brimful::tablet
