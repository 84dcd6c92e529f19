// The number pad: what was typed, in which unit, and the echo in the other. It never turns one unit into another:
// pressing another unit says that the same digits were read on that scale.
#pragma once

#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/quantity/quantity.h"

#include <QObject>

#include <optional>

namespace brimful::tablet {

class Pad : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the sheet")
    Q_PROPERTY(QString caption READ caption NOTIFY changed FINAL)
    Q_PROPERTY(QString shown READ shown NOTIFY changed FINAL) // digits as they stand in the field
    Q_PROPERTY(QString unit READ unitWord NOTIFY changed FINAL)
    Q_PROPERTY(QString echo READ echo NOTIFY changed FINAL) // "483 gal = 1828 L", or what is wrong
    Q_PROPERTY(QString free READ freeKey NOTIFY changed FINAL) // "/" for inches, "±" where below zero is a value, "" none
    Q_PROPERTY(bool point READ hasPoint NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::RowList* units READ units CONSTANT FINAL)

public:
    explicit Pad(QObject* parent = nullptr);

    void ask(const QString& caption, quantity::Dimension, const text::Reading&); // clears what was typed
    void askCount(const QString& caption);
    void put(const std::string& typed); // from a draft: "483 galUS"

    Q_INVOKABLE void press(const QString& key); // a digit, ".", ",", "/", "±"
    Q_INVOKABLE void erase();
    Q_INVOKABLE void eraseAll();
    Q_INVOKABLE void pickUnit(const QString& key);
    Q_INVOKABLE void nextUnit();

    [[nodiscard]] QString caption() const { return m_caption; }
    [[nodiscard]] QString shown() const;
    [[nodiscard]] QString unitWord() const;
    [[nodiscard]] QString echo() const;
    [[nodiscard]] QString freeKey() const;
    [[nodiscard]] bool hasPoint() const { return !m_count; }
    [[nodiscard]] RowList* units() { return &m_units; }

    [[nodiscard]] bool empty() const { return m_text.isEmpty(); }
    [[nodiscard]] std::string typed() const; // "7 ft 8 5/8 in"; the grammar of core/quantity
    [[nodiscard]] QString said() const; // "483 gal", for the button that takes it
    [[nodiscard]] std::optional<double> si() const; // nothing when it does not read
    [[nodiscard]] std::optional<std::int64_t> whole() const; // of a count

Q_SIGNALS:
    void changed();

private:
    void fillUnits();
    [[nodiscard]] bool inches() const { return m_unit == QLatin1String("in") || m_unit == QLatin1String("ft"); }

    QString m_caption;
    quantity::Dimension m_dimension{quantity::Dimension::Number};
    bool m_count{};
    text::Reading m_reading;
    QString m_text; // digits, '.', '/', and in inches "ft" and "in" where those keys were pressed; '-' in front
    QString m_unit;
    std::vector<QString> m_choices;
    RowList m_units;
};

// Unit as it is read: "gal" of "galUS", "°C" of "degC".
[[nodiscard]] QString unitShown(const QString& unit);

} // namespace brimful::tablet
