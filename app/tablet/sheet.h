// A sheet: one thing asked at a time, answered by one hand, then signed by one person or two. A step, a hold point,
// a vessel's admission, a new person: all are this sheet with other questions. It decides nothing; the yard does.
#pragma once

#include "app/tablet/ask.h"
#include "app/tablet/camera.h"
#include "app/tablet/pad.h"
#include "app/tablet/photographs.h"
#include "app/tablet/picture.h"
#include "core/yard/yard.h"

#include <QElapsedTimer>

#include <functional>
#include <map>

namespace brimful::tablet {

// What was answered, on its way to the yard.
struct Filled {
    canon::Json facts{canon::Json::object()};
    std::map<std::string, std::filesystem::path> files;
    std::map<std::string, yard::Taken> taken; // how each photograph came
    std::string instrument;
    std::string cannot;
    std::string tag;
    std::string secret; // a new person's PIN; never in a draft
};

// A record that one person signed and another one has still to.
struct Waits {
    Hash first;
    QString person;
    std::vector<Ask> asks; // what it answers
    QStringList said; // to each, in words
};

// What a sheet is about. Functions are the yard's use cases, bound by whoever opens it.
struct Plan {
    QString title; // "Fill 2 to the brim"
    QString why;
    QStringList cautions;
    std::vector<Ask> asks;
    std::vector<Option> cannot; // honest reasons for "cannot"
    QString means; // what the signature says: "Sign: I tested"
    bool gate{}; // a hold point: answers are said, not taken; nothing is kept; the last press is held
    bool together{}; // both sign before anything is written
    std::string draft; // key under which a half-filled sheet is kept, "" never
    rules::Index reg{rules::kNone}; // register whose rows this sheet names
    std::function<std::vector<yard::Yard::MaySign>(bool second)> signers; // empty: nobody signs
    std::vector<std::string> roles, second_roles; // that may sign, to say so to those who may not
    std::function<yard::Outcome<yard::Receipt>(const Filled&, const std::optional<yard::Signing>&, const std::optional<yard::Signing>&)>
        act;
    // The second person of an entry: what he is asked himself, whether that is what the first one gave, and his signature.
    std::function<std::optional<Ask>(const Hash&)> asks_second;
    std::function<yard::Outcome<void>(const Hash&, const canon::Json& answer)> fits;
    std::function<yard::Outcome<yard::Receipt>(const Hash&, const yard::Signing&, const canon::Json& answer)> confirm;
    std::function<bool(const Ask&, const canon::Json&)> agrees; // at a hold point
    std::function<void(bool written)> closed; // where to go then
    bool two{};
    std::optional<Waits> waits; // it begins with the second person
};

class Sheet : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_CLASSINFO("RegisterEnumClassesUnscoped", "false")
    Q_PROPERTY(brimful::tablet::Sheet::Kind hand READ hand NOTIFY changed FINAL)
    Q_PROPERTY(QString kicker READ kicker NOTIFY changed FINAL)
    Q_PROPERTY(QString ask READ askText NOTIFY changed FINAL)
    Q_PROPERTY(QString why READ why NOTIFY changed FINAL)
    Q_PROPERTY(QString need READ need NOTIFY changed FINAL)
    Q_PROPERTY(bool outside READ outside NOTIFY changed FINAL)
    Q_PROPERTY(QString message READ message NOTIFY changed FINAL) // what went wrong, in words
    Q_PROPERTY(QString draftNote READ draftNote NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::Pad* pad READ pad CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::Photographs* photographs READ photographs CONSTANT FINAL) // of File
    Q_PROPERTY(bool photograph READ asksPhotograph NOTIFY changed FINAL) // of File: false, a paper
    Q_PROPERTY(brimful::tablet::Camera* camera READ camera CONSTANT FINAL)
    Q_PROPERTY(bool hasCamera READ hasCamera NOTIFY changed FINAL)
    Q_PROPERTY(bool byCamera READ byCamera NOTIFY changed FINAL) // of File: the camera shows, not the files
    Q_PROPERTY(bool asksTag READ asksTag NOTIFY changed FINAL) // of Write: the tag at the vessel, by camera where byCamera
    Q_PROPERTY(QString check READ check NOTIFY changed FINAL) // what is seen in the photograph, in words
    Q_PROPERTY(bool checkWarns READ checkWarns NOTIFY changed FINAL)
    Q_PROPERTY(QString chalk READ chalk NOTIFY changed FINAL) // four digits to write beside the part; "" the tag is in the picture
    Q_PROPERTY(brimful::tablet::RowList* fields READ fields CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* options READ options CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* answered READ answered CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* places READ places CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* people READ people CONSTANT FINAL)
    Q_PROPERTY(brimful::tablet::RowList* others READ others CONSTANT FINAL) // who may not sign, and why
    Q_PROPERTY(QString written READ written WRITE setWritten NOTIFY changed FINAL)
    Q_PROPERTY(QString takeLabel READ takeLabel NOTIFY changed FINAL)
    Q_PROPERTY(bool canTake READ canTake NOTIFY changed FINAL)
    Q_PROPERTY(QString cannotLabel READ cannotLabel NOTIFY changed FINAL)
    Q_PROPERTY(bool canRefuse READ canRefuse NOTIFY changed FINAL)
    Q_PROPERTY(bool holdToTake READ holdToTake NOTIFY changed FINAL) // the last press is held 1.5 s
    Q_PROPERTY(bool phrases READ hasPhrases NOTIFY changed FINAL) // of Write: there is something to pick
    Q_PROPERTY(QString pinCaption READ pinCaption NOTIFY changed FINAL)
    Q_PROPERTY(int dots READ dots NOTIFY changed FINAL) // digits of a PIN, only counted
    Q_PROPERTY(bool gate READ isGate NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::BlindPicture blind READ blind NOTIFY changed FINAL)

public:
    enum class Kind { Number, Choice, Write, File, People, Pin, Told };
    Q_ENUM(Kind)

    explicit Sheet(QObject* parent = nullptr);

    void open(Plan plan, yard::Yard* yard, const VesselPicture& picture, const text::Reading& reading);
    void close(); // leaves; keeps the draft

    Q_INVOKABLE void take(); // the black button
    Q_INVOKABLE void refuse(); // "Cannot", "Stop here"
    Q_INVOKABLE void choose(const QString& key);
    Q_INVOKABLE void type(const QString& letter); // from the keys on the glass
    Q_INVOKABLE void eraseLetter();
    Q_INVOKABLE void pickField(const QString& key);
    Q_INVOKABLE void pickPerson(const QString& key);
    Q_INVOKABLE void pickFile(const QString& path); // "" another one will be
    Q_INVOKABLE void lookForPictures();
    Q_INVOKABLE void useCamera(bool on); // false: a file
    Q_INVOKABLE void shoot(); // picks the newest frame
    Q_INVOKABLE void pinPress(const QString& digit);
    Q_INVOKABLE void pinErase();
    Q_INVOKABLE void back();
    bool takeScan(const QString& text); // the tag that is asked for, an option's label; false: not what is asked
    Q_INVOKABLE bool stepBack(); // to the answer before; false at the first
    void tick(); // once a second: a talk that nobody answers starts again

    [[nodiscard]] Kind hand() const;
    [[nodiscard]] QString kicker() const;
    [[nodiscard]] QString askText() const;
    [[nodiscard]] QString why() const;
    [[nodiscard]] QString need() const;
    [[nodiscard]] bool outside() const;
    [[nodiscard]] QString message() const { return m_message; }
    [[nodiscard]] QString draftNote() const { return m_draft_note; }
    [[nodiscard]] Pad* pad() { return &m_pad; }
    [[nodiscard]] Photographs* photographs() { return &m_photographs; }
    [[nodiscard]] bool asksPhotograph() const;
    [[nodiscard]] Camera* camera() { return &m_camera; }
    [[nodiscard]] bool hasCamera() const { return m_camera.there(); }
    [[nodiscard]] bool byCamera() const { return m_by_camera; }
    [[nodiscard]] bool asksTag() const;
    [[nodiscard]] QString check() const { return m_check; }
    [[nodiscard]] bool checkWarns() const { return m_check_warns; }
    [[nodiscard]] QString chalk() const;
    [[nodiscard]] RowList* fields() { return &m_fields; }
    [[nodiscard]] RowList* options() { return &m_options; }
    [[nodiscard]] RowList* answered() { return &m_answered; }
    [[nodiscard]] RowList* places() { return &m_places; }
    [[nodiscard]] RowList* people() { return &m_people; }
    [[nodiscard]] RowList* others() { return &m_others; }
    [[nodiscard]] QString written() const { return m_written; }
    void setWritten(const QString& text);
    [[nodiscard]] QString takeLabel() const;
    [[nodiscard]] bool canTake() const;
    [[nodiscard]] QString cannotLabel() const;
    [[nodiscard]] bool canRefuse() const;
    [[nodiscard]] bool holdToTake() const;
    [[nodiscard]] bool hasPhrases() const { return m_options.count() > 0; }
    [[nodiscard]] QString pinCaption() const;
    [[nodiscard]] int dots() const { return static_cast<int>(m_pin.size()); }
    [[nodiscard]] bool isGate() const { return m_plan.gate; }
    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    [[nodiscard]] BlindPicture blind() const;

Q_SIGNALS:
    void changed();
    void signedBy(const QString& person); // an entry was written

private:
    enum class Phase : std::uint8_t { Asking, Cannot, Clock, First, Second, Told };
    struct Answer {
        canon::Json value; // text, integer, or an object of typed quantities by field
        QString said;
        QString chalk{}; // that was asked for while this photograph was taken
    };

    // sheet.cpp: asking; sheet_drafts.cpp
    [[nodiscard]] const Ask* current() const;
    [[nodiscard]] bool asksSecond() const { return m_phase == Phase::Asking && m_second_ask.has_value(); }
    [[nodiscard]] bool isOfSecond(const Ask& ask) const; // holds what the second person is asked now, so it is not shown
    void showAsk();
    void fillOptions(const std::vector<Option>& options, bool many);
    void fillFields();
    void fillAnswered();
    void fillPlaces();
    void takeAnswer();
    void takeNumber(const Ask& ask);
    void store(const Ask& ask, Answer answer);
    void storeOfSecond(Answer answer);
    void nameRow();
    void next();
    void saveDraft();
    void readDraft();
    void startOver();
    [[nodiscard]] Filled filled() const;

    // sheet_photo.cpp
    [[nodiscard]] QString whyNot(const QString& path, QString& resembles) const; // "" it may be taken
    [[nodiscard]] QString stills() const; // folder of what was taken here
    [[nodiscard]] bool isStill(const QString& path) const;
    void tendCamera();
    void drawChalk();
    void judge(const print::Seen& seen);
    void dropStills();
    void readTagSeen();

    // sheet_signing.cpp: signing
    void beginSigning();
    void beginSecond();
    void fillPeople(bool second);
    [[nodiscard]] QString signedLately() const;
    void expectPin();
    void signNow();
    void signFirst(yard::Signing signing);
    void signSecond(const yard::Signing& signing);
    void refuseWith(const report::Refusal& refusal);
    void finish(const yard::Receipt& receipt);
    void tell(const QString& words);

    Plan m_plan;
    yard::Yard* m_yard{};
    text::Reading m_reading;
    VesselPicture m_picture;
    Phase m_phase{Phase::Asking};
    std::size_t m_at{};
    std::size_t m_field{};
    std::vector<std::optional<Answer>> m_answers;
    std::map<std::string, std::string> m_typed; // by field, while a reading is taken
    QString m_chosen;
    QString m_written;
    std::string m_cannot;
    QString m_message;
    QString m_draft_note;
    int m_mismatches{};
    std::optional<Ask> m_second_ask; // the second person answers one question too, before signing
    canon::Json m_second_answer;
    std::string m_secret; // first of two PINs that must be the same
    bool m_secret_again{};

    QString m_person;
    std::string m_pin;
    bool m_confirm_clock{};
    bool m_written_entry{};
    std::optional<yard::Signing> m_first_signing;
    std::optional<Hash> m_first_entry;
    QString m_first_person;
    QElapsedTimer m_touched;
    QElapsedTimer m_opened;
    QElapsedTimer m_pressed; // since a place of a round was taken by its press

    Pad m_pad;
    Photographs m_photographs;
    Camera m_camera;
    bool m_by_camera{}, m_check_warns{}, m_tag_there{};
    QString m_check, m_tag_seen, m_chalk;
    std::optional<std::size_t> m_chalk_at; // the ask that it was drawn for
    QStringList m_stills; // taken here; the record keeps its own copy
    RowList m_fields, m_options, m_answered, m_places, m_people, m_others;
};

} // namespace brimful::tablet
