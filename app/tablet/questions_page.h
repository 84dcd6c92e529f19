// What a supervisor may ask in person: a list, read when it is opened and bit by bit, so that the glass answers meanwhile.
#pragma once

#include "app/tablet/rows.h"
#include "app/tablet/session.h"

#include <QTimer>

namespace brimful::tablet {

class QuestionsPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::RowList* questions READ questions CONSTANT FINAL) // newest first
    Q_PROPERTY(QString looked READ looked NOTIFY changed FINAL) // how much was looked at, or how far it is
    Q_PROPERTY(QString nothing READ nothing NOTIFY changed FINAL) // that nothing stood out; "" something did, or it is not read yet

public:
    explicit QuestionsPage(QObject* parent = nullptr);
    void open(Session& session); // reads; the session outlives it
    void close(); // reads no further, keeps nothing
    void readOn();
    void show(const report::Asked& asked);

    [[nodiscard]] RowList* questions() { return &m_rows; }
    [[nodiscard]] QString looked() const { return m_looked; }
    [[nodiscard]] QString nothing() const { return m_nothing; }
    [[nodiscard]] bool reading() const { return m_timer.isActive(); }

Q_SIGNALS:
    void changed();
    void refused(const brimful::report::Refusal& met);

private:
    Session* m_session{};
    yard::ReadToAsk m_so_far;
    QTimer m_timer;
    RowList m_rows;
    QString m_looked, m_nothing;
};

} // namespace brimful::tablet
