// A language that nobody speaks: every sentence of the program a third longer and more, with accents, in brackets whose loss
// shows a cut. It knows what translators are given, nothing else: a word that stands outside brackets can't be translated.
#pragma once

#include <QHash>
#include <QTranslator>

namespace brimful::test {

class LongText : public QTranslator {
public:
    LongText(); // installed as long as it lives
    ~LongText() override;
    LongText(const LongText&) = delete;
    LongText& operator=(const LongText&) = delete;

    [[nodiscard]] QString translate(const char* context, const char* source, const char* disambiguation, int n) const override;
    [[nodiscard]] bool isEmpty() const override { return m_known.isEmpty(); }
    [[nodiscard]] qsizetype size() const { return m_known.size(); }

    [[nodiscard]] static QString lengthened(const QString& source);
    // What is left of shown words when all that stands in brackets is taken away.
    [[nodiscard]] static QString outside(const QString& shown);

private:
    QHash<QByteArray, QString> m_known; // context and source
};

} // namespace brimful::test
