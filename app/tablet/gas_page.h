// What if air were blown in: through what burns and when, with nitrogen before it or without. A plan; nothing is recorded.
#pragma once

#include "app/tablet/gas_drawing.h"
#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/figure/figure.h"

namespace brimful::tablet {

class GasPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::GasPicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(bool overTime READ overTime WRITE setOverTime NOTIFY changed FINAL) // the share over time; else the triangle
    Q_PROPERTY(bool nitrogenFirst READ nitrogenFirst WRITE setNitrogenFirst NOTIFY changed FINAL)
    Q_PROPERTY(QString colour READ colour NOTIFY changed FINAL) // of the verdict, as Theme.signal() takes it
    Q_PROPERTY(QString word READ word NOTIFY changed FINAL)
    Q_PROPERTY(QString verdict READ verdict NOTIFY changed FINAL)
    Q_PROPERTY(QString because READ because NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL) // the limits with their source, and what else to know
    Q_PROPERTY(brimful::tablet::RowList* lines READ lines CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* inputs READ inputs CONSTANT FINAL) // what may be stepped; the chosen one is
    Q_PROPERTY(QString chosen READ chosen NOTIFY changed FINAL) // the name of the chosen input

public:
    using QObject::QObject;
    void show(const report::VesselView& vessel, const QString& gas, const figure::Reference& reference, const text::Reading& reading);
    Q_INVOKABLE void choose(const QString& input);
    Q_INVOKABLE void step(int by); // the chosen input

    [[nodiscard]] GasPicture picture() const { return m_picture; }
    [[nodiscard]] bool overTime() const { return m_over_time; }
    void setOverTime(bool over_time);
    [[nodiscard]] bool nitrogenFirst() const { return m_nitrogen_first; }
    void setNitrogenFirst(bool nitrogen_first);
    [[nodiscard]] QString colour() const { return m_colour; }
    [[nodiscard]] QString word() const { return m_word; }
    [[nodiscard]] QString verdict() const { return m_verdict; }
    [[nodiscard]] QString because() const { return m_because; }
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] RowList* lines() { return &m_lines; }
    [[nodiscard]] RowList* inputs() { return &m_inputs; }
    [[nodiscard]] QString chosen() const;

Q_SIGNALS:
    void changed();

private:
    enum class Input : std::uint8_t { Gas, Rest, Blower, Mixing, Residue, Minute };
    static constexpr std::size_t kInputs = 6;
    [[nodiscard]] static QString nameOf(Input input);
    [[nodiscard]] QString valueOf(Input input) const;
    [[nodiscard]] int most(Input input) const; // steps that it has, less one
    [[nodiscard]] int& stepOf(Input input) { return m_steps.at(static_cast<std::size_t>(input)); }
    [[nodiscard]] int stepOf(Input input) const { return m_steps.at(static_cast<std::size_t>(input)); }
    [[nodiscard]] std::string blown() const; // with its unit
    [[nodiscard]] double minute() const { return stepOf(Input::Minute) * m_minutes_a_step; }

    [[nodiscard]] canon::Json asked() const;
    void compute();
    void judge(const canon::Json& values, const std::vector<std::string>& warnings);
    void fillLines(const canon::Json& values);
    void fillInputs();
    void signal(report::Signal signal, const QString& verdict, const QString& because);

    figure::Reference m_reference;
    text::Reading m_reading;
    std::string m_substance;
    double m_capacity_m3{};
    bool m_over_time{}, m_nitrogen_first{};
    Input m_chosen{Input::Gas};
    std::array<int, kInputs> m_steps{};
    double m_minutes_a_step{5.0};
    GasPicture m_picture;
    QString m_colour, m_word, m_verdict, m_because, m_message;
    RowList m_lines, m_inputs;
};

} // namespace brimful::tablet
