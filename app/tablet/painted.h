// Drawings on the screen, all by the painters of app/print: a vessel, its run of gates, a blind, a tag, and small signs.
#pragma once

#include "app/tablet/picture.h"

#include <QQuickPaintedItem>

namespace brimful::tablet {

[[nodiscard]] print::Palette paletteOf(const QString& theme); // "light", "dark", "sunlight"

// Every drawing follows the theme and redraws when what it shows changes.
class Painted : public QQuickPaintedItem {
    Q_OBJECT
    QML_ANONYMOUS
    Q_PROPERTY(QString theme READ theme WRITE setTheme NOTIFY lookChanged FINAL)
    Q_PROPERTY(double unit READ unit WRITE setUnit NOTIFY lookChanged FINAL) // px of one px at 1280 x 800 on 10.1 in

public:
    explicit Painted(QQuickItem* parent = nullptr);
    [[nodiscard]] QString theme() const { return m_theme; }
    void setTheme(const QString& theme);
    [[nodiscard]] double unit() const { return m_unit; }
    void setUnit(double unit);

Q_SIGNALS:
    void lookChanged();

protected:
    [[nodiscard]] print::Palette palette() const { return paletteOf(m_theme); }

private:
    QString m_theme{QStringLiteral("light")};
    double m_unit{1.0};
};

class VesselDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture WRITE setPicture NOTIFY pictureChanged FINAL)
    Q_PROPERTY(double metres READ metres WRITE setMetres NOTIFY pictureChanged FINAL) // metres across the item; 0: as large as fits
    Q_PROPERTY(bool labels READ labels WRITE setLabels NOTIFY pictureChanged FINAL)
    Q_PROPERTY(bool sweep READ sweep WRITE setSweep NOTIFY pictureChanged FINAL) // under FIRE WATCH, its places by number
    Q_PROPERTY(bool ground READ ground WRITE setGround NOTIFY pictureChanged FINAL)
    Q_PROPERTY(QStringList leftParts READ left WRITE setLeft NOTIFY pictureChanged FINAL) // parts whose tabs stand left, from the top
    Q_PROPERTY(QStringList rightParts READ right WRITE setRight NOTIFY pictureChanged FINAL)
    Q_PROPERTY(double tabPitch READ tabPitch WRITE setTabPitch NOTIFY pictureChanged FINAL)
    Q_PROPERTY(double side READ side WRITE setSide NOTIFY pictureChanged FINAL) // room left and right of the drawing, for leaders

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    // Part nearest to a point within `reach`; "" none.
    Q_INVOKABLE QString partAt(double x, double y, double reach) const;

    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    void setPicture(const VesselPicture& picture);
    [[nodiscard]] double metres() const { return m_metres; }
    void setMetres(double metres);
    [[nodiscard]] bool labels() const { return m_labels; }
    void setLabels(bool labels);
    [[nodiscard]] bool sweep() const { return m_sweep; }
    void setSweep(bool sweep);
    [[nodiscard]] bool ground() const { return m_ground; }
    void setGround(bool ground);
    [[nodiscard]] QStringList left() const { return m_left; }
    void setLeft(const QStringList& left);
    [[nodiscard]] QStringList right() const { return m_right; }
    void setRight(const QStringList& right);
    [[nodiscard]] double tabPitch() const { return m_tab_pitch; }
    void setTabPitch(double pitch);
    [[nodiscard]] double side() const { return m_side; }
    void setSide(double side);

Q_SIGNALS:
    void pictureChanged();

private:
    void changed();
    void leaders(QPainter* painter) const;
    VesselPicture m_picture;
    double m_metres{}, m_tab_pitch{}, m_side{};
    bool m_labels{true}, m_ground{true}, m_sweep{};
    QStringList m_left, m_right;
    std::vector<print::PartPlace> m_places;
};

class RunDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture WRITE setPicture NOTIFY pictureChanged FINAL)
    Q_PROPERTY(QStringList names READ names WRITE setNames NOTIFY pictureChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    // Where a gate or a reach was drawn: "gate:2", "reach:3"; empty before the first frame.
    Q_INVOKABLE QRectF placeOf(const QString& id) const;
    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    void setPicture(const VesselPicture& picture);
    [[nodiscard]] QStringList names() const { return m_names; }
    void setNames(const QStringList& names);

Q_SIGNALS:
    void pictureChanged();

private:
    VesselPicture m_picture;
    QStringList m_names;
    mutable std::vector<print::PartPlace> m_places; // as the last question found them,
    mutable QSizeF m_places_in; // in a drawing of this size
};

class BlindDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture WRITE setPicture NOTIFY pictureChanged FINAL)
    Q_PROPERTY(brimful::tablet::BlindPicture blind READ blind WRITE setBlind NOTIFY pictureChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    void setPicture(const VesselPicture& picture);
    [[nodiscard]] BlindPicture blind() const { return m_blind; }
    void setBlind(const BlindPicture& blind);

Q_SIGNALS:
    void pictureChanged();

private:
    VesselPicture m_picture;
    BlindPicture m_blind;
};

// A small sign beside a word: standing shapes, opening states, arrows. Own paths, no font.
class Glyph : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QString name READ name WRITE setName NOTIFY nameChanged FINAL)
    Q_PROPERTY(QColor ink READ ink WRITE setInk NOTIFY nameChanged FINAL)

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] QString name() const { return m_name; }
    void setName(const QString& name);
    [[nodiscard]] QColor ink() const { return m_ink; }
    void setInk(const QColor& ink);

Q_SIGNALS:
    void nameChanged();

private:
    QString m_name;
    QColor m_ink{Qt::black};
};

// A box whose border can be broken: solid is proven, broken is believed, lapsed or waiting. Also the shape of a hang tag.
class Box : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QColor fill MEMBER m_fill NOTIFY boxChanged FINAL)
    Q_PROPERTY(QColor ink MEMBER m_ink NOTIFY boxChanged FINAL)
    Q_PROPERTY(double line MEMBER m_line NOTIFY boxChanged FINAL)
    Q_PROPERTY(double corner MEMBER m_corner NOTIFY boxChanged FINAL)
    Q_PROPERTY(bool broken MEMBER m_broken NOTIFY boxChanged FINAL)
    Q_PROPERTY(bool hangs MEMBER m_hangs NOTIFY boxChanged FINAL) // a tag: two corners off, a hole

public:
    explicit Box(QQuickItem* parent = nullptr);
    void paint(QPainter* painter) override;

Q_SIGNALS:
    void boxChanged();

private:
    QColor m_fill{Qt::transparent}, m_ink{Qt::black};
    double m_line{3.0}, m_corner{10.0};
    bool m_broken{}, m_hangs{};
};

// The way through the gates against time: one column a stage, one row an entry, newest on top.
class WayDrawing : public brimful::tablet::Painted {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QList<int> reaches READ reaches WRITE setReaches NOTIFY wayChanged FINAL)
    Q_PROPERTY(int stages READ stages WRITE setStages NOTIFY wayChanged FINAL)
    Q_PROPERTY(double pitch READ pitch WRITE setPitch NOTIFY wayChanged FINAL) // height of one entry's row

public:
    using Painted::Painted;
    void paint(QPainter* painter) override;
    [[nodiscard]] QList<int> reaches() const { return m_reaches; }
    void setReaches(const QList<int>& reaches);
    [[nodiscard]] int stages() const { return m_stages; }
    void setStages(int stages);
    [[nodiscard]] double pitch() const { return m_pitch; }
    void setPitch(double pitch);

Q_SIGNALS:
    void wayChanged();

private:
    QList<int> m_reaches;
    int m_stages{1};
    double m_pitch{112.0};
};

} // namespace brimful::tablet
