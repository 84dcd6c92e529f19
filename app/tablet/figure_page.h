// A live figure: a few inputs to step or drag, a picture, a verdict, results. A plan, the test decides; nothing is recorded.
// A figure of its own says what may be stepped (open) and what comes of it (compute); the rest is here.
#pragma once

#include "app/tablet/figure_input.h"
#include "app/tablet/figure_picture.h"
#include "app/tablet/rows.h"
#include "app/text/words.h"
#include "core/figure/figure.h"

namespace brimful::tablet {

// A gas meter as the yard's register has it.
struct FigureMeter {
    QString name;
    canon::Json attributes; // sensor, calibrated_on, response_factor, limit_basis, hose: texts, as enrolled
    QString standing; // in words: bumped when, or why it does not count
    bool counts{};
};

// Whose figure it is: the vessel as it stands, and how a person reads.
struct FigureSubject {
    std::shared_ptr<const report::VesselView> view;
    QString contents; // what it held, in a word
    figure::Reference reference;
    text::Reading reading;
    std::vector<FigureMeter> meters{}; // of the yard
};

class FigurePage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::FigurePicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(QString view READ view NOTIFY changed FINAL) // key of the chosen view; "notes" is every page's last
    Q_PROPERTY(QString colour READ colour NOTIFY changed FINAL) // of the verdict, as Theme.signal() takes it, or "gas"; "" no verdict
    Q_PROPERTY(QString word READ word NOTIFY changed FINAL)
    Q_PROPERTY(QString verdict READ verdict NOTIFY changed FINAL)
    Q_PROPERTY(QString because READ because NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL) // the notes in one
    Q_PROPERTY(QStringList notes READ notes NOTIFY changed FINAL) // sources, marks, warnings; what matters most first
    Q_PROPERTY(QString act READ actTitle NOTIFY changed FINAL) // of the black key; "" none
    Q_PROPERTY(QString chosen READ chosen NOTIFY changed FINAL) // caption of the input that is stepped
    Q_PROPERTY(QList<int> letters READ letters NOTIFY changed FINAL) // of each input shown, at its longest
    Q_PROPERTY(brimful::tablet::RowList* inputs READ inputs CONSTANT FINAL) // title: its value, line: its caption
    Q_PROPERTY(brimful::tablet::RowList* views READ views CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* switches READ switches CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* lines READ lines CONSTANT FINAL) // title: what, line: its value

public:
    static constexpr std::size_t kInputsShown = 6;
    static constexpr std::size_t kSwitchesShown = 5;

    using QObject::QObject;
    void show(const FigureSubject& subject);
    Q_INVOKABLE void choose(const QString& input);
    Q_INVOKABLE void step(int by); // the chosen input
    Q_INVOKABLE void look(const QString& view);
    Q_INVOKABLE void flip(const QString& key);
    Q_INVOKABLE void press(); // the black key
    // A finger on the picture, in shares of its width and height from the top left.
    Q_INVOKABLE void grasp(double x, double y);
    Q_INVOKABLE void drag(double x, double y);

    [[nodiscard]] FigurePicture picture() const { return m_picture; }
    [[nodiscard]] QString view() const { return m_view; }
    [[nodiscard]] QString colour() const { return m_colour; }
    [[nodiscard]] QString word() const { return m_word; }
    [[nodiscard]] QString verdict() const { return m_verdict; }
    [[nodiscard]] QString because() const { return m_because; }
    [[nodiscard]] QString message() const { return m_notes.join(QLatin1Char(' ')); }
    [[nodiscard]] QStringList notes() const { return m_notes; }
    [[nodiscard]] QString actTitle() const { return m_act; }
    [[nodiscard]] QString chosen() const;
    [[nodiscard]] QList<int> letters() const { return m_letters; }
    [[nodiscard]] RowList* inputs() { return &m_input_rows; }
    [[nodiscard]] RowList* views() { return &m_view_rows; }
    [[nodiscard]] RowList* switches() { return &m_switch_rows; }
    [[nodiscard]] RowList* lines() { return &m_line_rows; }
    [[nodiscard]] const FigureInput& input(const QString& key) const;

Q_SIGNALS:
    void changed();

protected:
    // Declares inputs, views and the handles from the subject. The first input is the chosen one unless another is named.
    virtual void open() = 0;
    // From the inputs to picture, verdict, lines, notes. All of them are empty when it begins.
    virtual void compute() = 0;
    virtual void flipped(const QString& key) { Q_UNUSED(key) }
    virtual void act() { }

    [[nodiscard]] const FigureSubject& subject() const { return m_subject; }
    [[nodiscard]] bool sayMeasureFirst(); // true: the vessel is not measured, and the verdict says so
    [[nodiscard]] QString length(double metres) const { return text::quantity(metres, figure::Dimension::Length, m_subject.reading); }
    // What it held, by its id in the table of substances: "unknown" where the table has no such row. And its name.
    [[nodiscard]] std::string substance() const;
    [[nodiscard]] QString gasName() const;
    void noteLimits(); // of what it held, where they are published
    [[nodiscard]] bool us() const { return m_subject.reading.units == text::Units::Us; }
    [[nodiscard]] tl::expected<figure::Result, figure::Error> ask(const char* figure, const canon::Json& inputs) const;
    [[nodiscard]] static QString degrees(double value); // "2.0°"
    FigureInput& add(FigureInput input);
    [[nodiscard]] FigureInput& change(const QString& key);
    [[nodiscard]] double valueOf(const QString& key) const { return input(key).value(); }
    void setAsked(const QString& key, bool asked); // when the chosen one is not, the first one is chosen
    void addView(const QString& key, const QString& title);
    void setSwitches(std::vector<Row> rows); // glyph, line, solid and chosen as they are drawn
    // A drag over the whole width to the right, or the whole height up, takes so many steps of an input.
    void handles(const QString& across, double steps_across, const QString& up = {}, double steps_up = 0);
    void setChosen(const QString& key) { m_chosen = key; }
    [[nodiscard]] QString chosenKey() const { return m_chosen; }
    void setAct(const QString& title) { m_act = title; }

    void paint(FigurePicture::Paint paint);
    void judge(report::Signal signal, const QString& verdict, const QString& because);
    void say(const QString& word, const QString& verdict, const QString& because); // a number that is neither good nor bad
    void judgeAs(const QString& colour, const QString& word, const QString& verdict, const QString& because);
    void line(const QString& title, const QString& value);
    void lineOf(const QString& title, double si, figure::Dimension dimension); // none for NaN
    [[nodiscard]] static QString mixture(const canon::Json& place); // its share of gas and of oxygen
    void linesOfCrossing(const canon::Json& values); // where what burns is entered and left; none where it is not
    void note(const QString& words);
    void noteWarnings(const std::vector<std::string>& warnings);
    void refresh(); // computes and shows

private:
    struct Handle {
        QString key;
        double steps{};
        std::size_t from{};
    };
    [[nodiscard]] std::size_t indexOf(const QString& key) const; // of an input; its count where there is none
    [[nodiscard]] std::vector<const FigureInput*> askedInputs() const;
    void fillInputs();
    void fillSwitches();
    bool pull(const Handle& handle, double share); // false: stays where it is

    FigureSubject m_subject;
    std::vector<FigureInput> m_inputs;
    std::vector<Row> m_views, m_switches, m_lines;
    Handle m_across, m_up;
    double m_grasped_x{}, m_grasped_y{};
    std::size_t m_first_input{}, m_first_switch{};
    FigurePicture m_picture;
    QString m_view, m_chosen, m_colour, m_word, m_verdict, m_because, m_act;
    QStringList m_notes;
    QList<int> m_letters;
    RowList m_input_rows, m_view_rows, m_switch_rows, m_line_rows;
};

} // namespace brimful::tablet
