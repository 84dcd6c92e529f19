// Work that was released, or a fire watch: a clock that fills the screen, the limits to stop and to leave at or the sweeps, and the
// acts that end it. Those acts only take away: one touch, nobody's PIN.
#pragma once

#include "app/tablet/picture.h"
#include "app/tablet/rows.h"
#include "app/text/words.h"

namespace brimful::tablet {

class ClockPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(QString remaining READ remaining NOTIFY changed FINAL)
    Q_PROPERTY(double gone READ gone NOTIFY changed FINAL) // 0 at the start, 1 at the end
    Q_PROPERTY(bool over READ over NOTIFY changed FINAL)
    Q_PROPERTY(bool watch READ isWatch NOTIFY changed FINAL)
    Q_PROPERTY(QString task READ task NOTIFY changed FINAL) // what is to be done meanwhile: "Log gas"
    Q_PROPERTY(QString taskLine READ taskLine NOTIFY changed FINAL)
    Q_PROPERTY(QString done READ done NOTIFY changed FINAL) // what is recorded when the work is done; "" where the task is that
    Q_PROPERTY(QString doneLine READ doneLine NOTIFY changed FINAL)
    Q_PROPERTY(QString handOn READ handOn NOTIFY changed FINAL) // of a watch: to another person
    Q_PROPERTY(QString handOnLine READ handOnLine NOTIFY changed FINAL)
    Q_PROPERTY(QString stopAt READ stopAt NOTIFY changed FINAL)
    Q_PROPERTY(QString leaveAt READ leaveAt NOTIFY changed FINAL)
    Q_PROPERTY(brimful::tablet::VesselPicture picture READ picture NOTIFY changed FINAL)
    Q_PROPERTY(QList<double> swept READ swept NOTIFY changed FINAL) // of a watch: where on the bar a sweep was made
    Q_PROPERTY(QList<double> coming READ coming NOTIFY changed FINAL) // and where one is to be made; the last at the end
    Q_PROPERTY(brimful::tablet::RowList* sweeps READ sweeps CONSTANT FINAL) // those made, the next, the last
    Q_PROPERTY(brimful::tablet::RowList* lines READ lines CONSTANT FINAL) // of a watch: its places
    Q_PROPERTY(brimful::tablet::RowList* ends READ ends CONSTANT FINAL)

public:
    using QObject::QObject;
    void show(const VesselPicture& picture, const rules::Pack& pack, const text::Reading& reading);
    void tick(std::int64_t now_ms);
    void setSilent(bool silent) { m_silent = silent; } // nothing here sounds: said from the next show on
    [[nodiscard]] rules::Index taskStep() const { return m_step; }
    [[nodiscard]] rules::Index doneStep() const { return m_done_step; }
    [[nodiscard]] rules::Index handOnStep() const { return m_hand_on_step; }
    [[nodiscard]] bool running() const { return m_picture.view && m_end_ms != rules::kNever; }

    [[nodiscard]] QString remaining() const;
    [[nodiscard]] double gone() const;
    [[nodiscard]] bool over() const; // also once the release is none any more
    [[nodiscard]] bool isWatch() const { return m_watch; }
    [[nodiscard]] QString task() const { return m_task; }
    [[nodiscard]] QString taskLine() const { return m_task_line; }
    [[nodiscard]] QString done() const { return m_done; }
    [[nodiscard]] QString doneLine() const { return m_done_line; }
    [[nodiscard]] QString handOn() const { return m_hand_on; }
    [[nodiscard]] QString handOnLine() const { return m_hand_on_line; }
    [[nodiscard]] QString stopAt() const { return m_stop_at; }
    [[nodiscard]] QString leaveAt() const { return m_leave_at; }
    [[nodiscard]] VesselPicture picture() const { return m_picture; }
    [[nodiscard]] const QList<double>& swept() const { return m_swept; }
    [[nodiscard]] const QList<double>& coming() const { return m_coming; }
    [[nodiscard]] RowList* sweeps() { return &m_sweeps; }
    [[nodiscard]] RowList* lines() { return &m_lines; }
    [[nodiscard]] RowList* ends() { return &m_ends; }

Q_SIGNALS:
    void changed();

private:
    void showWork(const rules::Pack& pack, const text::Reading& reading);
    void showWatch(const rules::Pack& pack, const text::Reading& reading);
    [[nodiscard]] std::vector<std::int64_t> sweepsToCome(const rules::Pack& pack) const;

    VesselPicture m_picture;
    std::int64_t m_end_ms{rules::kNever}, m_length_ms{1}, m_now_ms{};
    bool m_watch{}, m_silent{};
    rules::Index m_step{rules::kNone}, m_done_step{rules::kNone}, m_hand_on_step{rules::kNone};
    QString m_task, m_done, m_task_line, m_done_line, m_hand_on, m_hand_on_line, m_stop_at, m_leave_at;
    QList<double> m_swept, m_coming;
    RowList m_sweeps, m_lines, m_ends;
};

} // namespace brimful::tablet
