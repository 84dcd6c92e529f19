// The whole program as the screens see it: which screen, its pages, and the acts of a hand. QML reaches the yard only here.
#pragma once

#include "app/tablet/alarm.h"
#include "app/tablet/clock_page.h"
#include "app/tablet/figure_page.h"
#include "app/tablet/plate.h"
#include "app/tablet/power.h"
#include "app/tablet/questions_page.h"
#include "app/tablet/session.h"
#include "app/tablet/sheet.h"
#include "app/tablet/tag_page.h"
#include "app/tablet/trail_page.h"
#include "app/tablet/vessel_page.h"
#include "app/tablet/yard_page.h"

#include <QElapsedTimer>
#include <QTimer>

namespace brimful::tablet {

class Tablet : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by main")
    Q_CLASSINFO("RegisterEnumClassesUnscoped", "false")
    Q_PROPERTY(brimful::tablet::Tablet::View screen READ screen NOTIFY screenChanged FINAL)
    Q_PROPERTY(brimful::tablet::Plate* plate READ plate CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::YardPage* yard READ yardPage CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::VesselPage* vessel READ vesselPage CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::Sheet* sheet READ sheet CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::ClockPage* clock READ clockPage CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::TrailPage* trail READ trailPage CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::QuestionsPage* questions READ questions CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::TagPageModel* tag READ tagPage CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::FigurePage* figure READ figure NOTIFY screenChanged FINAL) // the one that is open
    Q_PROPERTY(QString figureTitle READ figureTitle NOTIFY screenChanged FINAL)
    Q_PROPERTY(brimful::tablet::RowList* figures READ figures CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* people READ people CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* instruments READ instruments CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* about READ about CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* law READ law CONSTANT FINAL) // what it asks beyond the rules themselves
    Q_PROPERTY(QString lawName READ lawName NOTIFY screenChanged FINAL)
    Q_PROPERTY(brimful::tablet::RowList* faultLines READ faultLines CONSTANT FINAL)
    Q_PROPERTY(QString faultTitle READ faultTitle NOTIFY screenChanged FINAL)
    Q_PROPERTY(QString theme READ theme WRITE setTheme NOTIFY lookChanged FINAL)
    Q_PROPERTY(int textSize READ textSize WRITE setTextSize NOTIFY lookChanged FINAL) // per cent: 100, 125, 150, 175, 200
    Q_PROPERTY(QString units READ units NOTIFY lookChanged FINAL)
    Q_PROPERTY(bool demo READ demo NOTIFY screenChanged FINAL)
    Q_PROPERTY(bool hasVessel READ hasVessel NOTIFY screenChanged FINAL)
    Q_PROPERTY(bool adopted READ adopted NOTIFY screenChanged FINAL)
    Q_PROPERTY(QString recoverySheet READ recoverySheet NOTIFY screenChanged FINAL)
    Q_PROPERTY(QString folder READ folder NOTIFY screenChanged FINAL)
    Q_PROPERTY(QString message READ message NOTIFY messageChanged FINAL)
    // What was scanned, another vessel's late clock whose alarm was heard, or that the battery runs low. Empty: none.
    Q_PROPERTY(QString band READ band NOTIFY bandChanged FINAL)
    Q_PROPERTY(QString bandGo READ bandGoLabel NOTIFY bandChanged FINAL) // "" there is nowhere to go
    // Over every screen: work whose time ran out, until somebody says that it was heard. "" quiet.
    Q_PROPERTY(QString alarm READ alarm NOTIFY alarmChanged FINAL)
    Q_PROPERTY(bool wet READ wet NOTIFY wetChanged FINAL) // the glass: touches are dropped
    Q_PROPERTY(bool canSound READ canSound NOTIFY alarmChanged FINAL) // false: the alarm is only seen

public:
    enum class View {
        FirstStart,
        Yard,
        Vessel,
        Sheet,
        Held,
        Stage,
        Clock,
        Trail,
        Tag,
        Figures,
        Figure,
        SetUp,
        Law,
        Questions,
        About,
        Recovery,
        Fault
    };
    Q_ENUM(View)

    explicit Tablet(const std::filesystem::path& folder, std::unique_ptr<ledger::Clock> clock = nullptr, QObject* parent = nullptr);
    void setSounder(std::unique_ptr<Sounder> sounder); // without one it is silent
    void setPowerFolder(const std::filesystem::path& folder); // without one nothing is said of a battery
    void start(); // opens the yard, or shows why not
    void startBeside(const std::function<void()>& act); // the same, while the act is done; it may not ask the yard anything

    Q_INVOKABLE void newYard();
    Q_INVOKABLE void openFolder(const QString& path);
    Q_INVOKABLE void lookRoundDemo();
    Q_INVOKABLE void tryAgain();
    Q_INVOKABLE void goOn(); // from the recovery sheet
    Q_INVOKABLE void back();
    Q_INVOKABLE void scanned(const QString& text); // typed in the field, or scanned on any screen
    Q_INVOKABLE void bandGoThere();
    Q_INVOKABLE void bandStay();
    Q_INVOKABLE void hearAlarm(); // the sound stops; nothing else does
    Q_INVOKABLE void trySound();
    Q_INVOKABLE void openVessel(const QString& number);
    Q_INVOKABLE void openPart(const QString& id);
    Q_INVOKABLE void openHeld();
    Q_INVOKABLE void openReason(const QString& key);
    Q_INVOKABLE void openStep(const QString& key);
    Q_INVOKABLE void nextThing(); // the black button of the vessel
    Q_INVOKABLE void openTask(); // of the clock
    Q_INVOKABLE void openDone(); // what ends its work
    Q_INVOKABLE void openHandOn(); // who watches from now on
    Q_INVOKABLE void add();
    Q_INVOKABLE void setUp();
    Q_INVOKABLE void addPerson();
    Q_INVOKABLE void addInstrument();
    Q_INVOKABLE void bumpCheck();
    Q_INVOKABLE void adopt();
    Q_INVOKABLE void showLaw();
    Q_INVOKABLE void showQuestions();
    Q_INVOKABLE void showAbout();
    Q_INVOKABLE void nextTheme();
    Q_INVOKABLE void nextTextSize();
    Q_INVOKABLE void nextUnits();
    Q_INVOKABLE void putRight();
    Q_INVOKABLE void printTag(); // appended first; its hash is what the tag says
    Q_INVOKABLE void saveTag();
    // Acts that only take away: one touch, nobody's PIN.
    Q_INVOKABLE void stop();
    Q_INVOKABLE void speakUp();
    Q_INVOKABLE void happened(const QString& id);

    [[nodiscard]] View screen() const { return m_screen; }
    [[nodiscard]] Plate* plate() { return &m_plate; }
    [[nodiscard]] YardPage* yardPage() { return &m_yard_page; }
    [[nodiscard]] VesselPage* vesselPage() { return &m_vessel_page; }
    [[nodiscard]] Sheet* sheet() { return &m_sheet; }
    [[nodiscard]] ClockPage* clockPage() { return &m_clock_page; }
    [[nodiscard]] TrailPage* trailPage() { return &m_trail_page; }
    [[nodiscard]] QuestionsPage* questions() { return &m_questions; }
    [[nodiscard]] TagPageModel* tagPage() { return &m_tag_page; }
    [[nodiscard]] FigurePage* figure() const { return m_figure.get(); }
    [[nodiscard]] QString figureTitle() const { return m_figure_title; }
    [[nodiscard]] RowList* figures() { return &m_figures; }
    [[nodiscard]] RowList* people() { return &m_people; }
    [[nodiscard]] RowList* instruments() { return &m_instruments; }
    [[nodiscard]] RowList* about() { return &m_about; }
    [[nodiscard]] RowList* law() { return &m_law; }
    [[nodiscard]] QString lawName();
    [[nodiscard]] RowList* faultLines() { return &m_fault_lines; }
    [[nodiscard]] QString faultTitle() const { return m_fault_title; }
    [[nodiscard]] QString theme() const { return m_theme; }
    void setTheme(const QString& theme);
    [[nodiscard]] int textSize() const { return m_text_size; }
    void setTextSize(int percent); // any other is not taken
    [[nodiscard]] QString units() const;
    [[nodiscard]] bool demo() const { return m_demo; }
    [[nodiscard]] bool hasVessel() const { return !m_number.empty(); }
    [[nodiscard]] bool adopted();
    [[nodiscard]] QString recoverySheet() const { return m_recovery; }
    [[nodiscard]] QString folder() const;
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] QString band() const { return m_band; }
    [[nodiscard]] QString bandGoLabel() const;
    [[nodiscard]] QString alarm() const { return m_alarm_words; }
    [[nodiscard]] bool canSound() const;
    [[nodiscard]] bool wet() const { return m_wet; }
    void setWet(bool wet);
    [[nodiscard]] Session& session() { return m_session; }
    void tick(); // once a second
    void readOn(); // the next vessel that the yard's list left out, when no hand is on the glass
    [[nodiscard]] bool eventFilter(QObject* window, QEvent* event) override; // notes when a hand is

Q_SIGNALS:
    void screenChanged();
    void lookChanged();
    void messageChanged();
    void bandChanged();
    void alarmChanged();
    void wetChanged();

private:
    static constexpr std::uint64_t kGlance = 1000; // entries of a yard that are read at once: about a tenth of a second

    // tablet.cpp
    void go(View screen);
    enum class BandOf : std::uint8_t { Scan, Clock, Battery };
    void showBand(const QString& text, const QString& number, BandOf of = BandOf::Scan);
    void scannedVessel(const QString& number);
    void say(const QString& message);
    void fault(const report::Refusal& met);
    void opened(const yard::Outcome<void>& outcome);
    void showYard(bool reorder);
    [[nodiscard]] bool refreshVessel(); // false: it cannot be read; the fault is shown
    void showVessel(std::shared_ptr<const report::VesselView> view);
    void goToVessel(); // to its clock while that runs
    void openStepIndex(rules::Index step);
    void openHoldPoint(rules::Index hold_point);
    void openTarget(const VesselPage::Target& target);
    void openStage(std::size_t stage);
    void openFigures();
    void openFigure(const QString& id);
    void openClock();
    // tablet_alarm.cpp
    void countClocks(const std::vector<report::BoardRow>& board);
    void watchClocks(std::int64_t now_ms);
    void forgetClocks();
    void ringIfLate();
    void tellBand(std::int64_t now_ms);
    [[nodiscard]] QString batteryWords(std::int64_t now_ms); // "" nothing to say on this screen
    // tablet_acts.cpp
    void openSheet(Plan plan, View then);
    void sheetClosed(View then, bool written);
    void stopVessel(const std::string& number, const char* event);
    void fillSetUp();

    Session m_session;
    View m_screen{View::FirstStart};
    std::string m_number; // vessel that is open
    Plate m_plate;
    YardPage m_yard_page;
    VesselPage m_vessel_page;
    Sheet m_sheet;
    ClockPage m_clock_page;
    TrailPage m_trail_page;
    QuestionsPage m_questions;
    TagPageModel m_tag_page;
    std::unique_ptr<FigurePage> m_figure;
    QString m_figure_title;
    RowList m_figures;
    RowList m_people, m_instruments, m_law, m_about, m_fault_lines;
    QString m_fault_title, m_recovery, m_message;
    QString m_theme{QStringLiteral("light")};
    int m_text_size{100};
    bool m_demo{};
    bool m_wet{};
    std::int64_t m_release_until{};
    QTimer m_second, m_reader;
    int m_untouched_s{};
    QElapsedTimer m_touched;
    QString m_band, m_band_number;
    BandOf m_band_of{BandOf::Scan};
    std::filesystem::path m_power_folder;
    std::optional<Battery> m_battery;
    int m_battery_read_in_s{};
    QString m_battery_aside; // words that were put aside
    std::vector<Alarm::Clock> m_clocks; // of work, in all vessels
    bool m_clocks_changed{}; // something was written since they were read
    Alarm m_alarm;
    QString m_alarm_words;
    std::unique_ptr<Sounder> m_sounder;
};

} // namespace brimful::tablet
