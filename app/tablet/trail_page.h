// The vessel's entries against its way through the gates: four a page, newest first.
#pragma once

#include "app/tablet/rows.h"
#include "app/text/words.h"

namespace brimful::tablet {

class TrailPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the tablet")
    Q_PROPERTY(brimful::tablet::RowList* entries READ entries CONSTANT FINAL)
    Q_PROPERTY(QList<int> reaches READ reaches NOTIFY changed FINAL)
    Q_PROPERTY(int stages READ stages NOTIFY changed FINAL)
    Q_PROPERTY(QString links READ links NOTIFY changed FINAL) // "64 of 64 links hold"
    Q_PROPERTY(int earlier READ earlier NOTIFY changed FINAL) // entries before this page
    Q_PROPERTY(int later READ later NOTIFY changed FINAL)
    Q_PROPERTY(QString filter READ filter NOTIFY changed FINAL)
    Q_PROPERTY(QString detail READ detail NOTIFY changed FINAL) // of the chosen entry: who, when, proof; what a second person answered
    Q_PROPERTY(bool canPutRight READ canPutRight NOTIFY changed FINAL)

public:
    static constexpr int kPage = 4;
    using QObject::QObject;
    void show(std::vector<report::TrailLine> lines, const rules::Pack& pack, const text::Reading& reading);
    void setLinks(const QString& links);
    Q_INVOKABLE void showEarlier();
    Q_INVOKABLE void showLater();
    Q_INVOKABLE void nextFilter(); // all, signed, stops
    Q_INVOKABLE void choose(const QString& key);
    [[nodiscard]] std::optional<Hash> chosen() const;

    [[nodiscard]] RowList* entries() { return &m_entries; }
    [[nodiscard]] QList<int> reaches() const { return m_reaches; }
    [[nodiscard]] int stages() const { return m_stages; }
    [[nodiscard]] QString links() const { return m_links; }
    [[nodiscard]] int earlier() const;
    [[nodiscard]] int later() const { return m_first; }
    [[nodiscard]] QString filter() const;
    [[nodiscard]] QString detail() const { return m_detail; }
    [[nodiscard]] bool canPutRight() const;

Q_SIGNALS:
    void changed();

private:
    enum class Filter : std::uint8_t { All, Signed, Stops };
    void fill();
    [[nodiscard]] std::vector<const report::TrailLine*> passing() const;

    std::vector<report::TrailLine> m_lines; // newest first
    const rules::Pack* m_pack{};
    text::Reading m_reading;
    RowList m_entries;
    QList<int> m_reaches;
    int m_stages{1};
    int m_first{};
    Filter m_filter{Filter::All};
    QString m_chosen, m_links, m_detail;
};

} // namespace brimful::tablet
