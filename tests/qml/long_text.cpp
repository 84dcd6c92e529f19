#include "tests/qml/long_text.h"

#include <QCoreApplication>
#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QXmlStreamReader>

namespace brimful::test {

namespace {

constexpr double kLonger = 1.37;

QByteArray keyOf(const QByteArray& context, const QByteArray& source) { return context + '\n' + source; }

bool run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.setProcessChannelMode(QProcess::MergedChannels);
    process.start(program, arguments);
    return process.waitForFinished(60000) && process.exitCode() == 0;
}

} // namespace

LongText::LongText()
{
    const QTemporaryDir dir;
    const QString source = QStringLiteral(BRIMFUL_SOURCE_DIR);
    const QString packs = dir.filePath(QStringLiteral("pack_strings.cpp"));
    const QString all = dir.filePath(QStringLiteral("all.ts"));
    const bool made = run(QStringLiteral(BRIMFUL_CMAKE),
                          {QStringLiteral("-DSOURCE=%1/rules").arg(source), QStringLiteral("-DOUT=%1").arg(packs), QStringLiteral("-P"),
                              source + QStringLiteral("/app/build/pack_strings.cmake")})
        && run(QStringLiteral(BRIMFUL_LUPDATE),
            {QStringLiteral("-silent"), QStringLiteral("-locations"), QStringLiteral("none"), QStringLiteral("-I"), source,
                QStringLiteral("-recursive"), source + QStringLiteral("/app"), source + QStringLiteral("/qml"), packs,
                QStringLiteral("-ts"), all});
    QFile file(all);
    if (!made || !file.open(QIODevice::ReadOnly)) {
        qFatal("what is to be translated could not be listed");
    }
    QXmlStreamReader xml(&file);
    QByteArray context;
    while (!xml.atEnd()) {
        xml.readNext();
        if (xml.isStartElement() && xml.name() == QLatin1String("name")) {
            context = xml.readElementText().toUtf8();
        } else if (xml.isStartElement() && xml.name() == QLatin1String("source")) {
            const QString text = xml.readElementText();
            m_known.insert(keyOf(context, text.toUtf8()), lengthened(text));
        }
    }
    QCoreApplication::installTranslator(this);
}

LongText::~LongText() { QCoreApplication::removeTranslator(this); }

QString LongText::translate(const char* context, const char* source, const char* /*disambiguation*/, int /*n*/) const
{
    return m_known.value(keyOf(context, source));
}

QString LongText::lengthened(const QString& source)
{
    static const QString kPlain = QStringLiteral("aeiouAEIOUnc"); // vowels may stand twice
    static const QString kAccented = QStringLiteral("áéíóúÁÉÍÓÚñç");
    const auto target = static_cast<qsizetype>(static_cast<double>(source.size()) * kLonger);
    qsizetype spare = target - source.size() - 2; // the brackets
    QString out(QLatin1Char('['));
    for (qsizetype i = 0; i < source.size(); ++i) {
        const QChar letter = source[i];
        if (letter == u'%' && i + 1 < source.size() && (source[i + 1].isDigit() || source[i + 1] == u'n' || source[i + 1] == u'L')) {
            out += letter;
            while (i + 1 < source.size() && (source[i + 1].isDigit() || source[i + 1] == u'n' || source[i + 1] == u'L')) {
                out += source[++i];
            }
            continue;
        }
        const qsizetype known = kPlain.indexOf(letter);
        out += known < 0 ? letter : kAccented[known];
        if (known >= 0 && known < 5 && spare > 0) {
            out += kAccented[known];
            --spare;
        }
    }
    static const QString kMore = QStringLiteral(" móré wórds");
    for (qsizetype i = 0; i < spare; ++i) {
        out += kMore[i % kMore.size()];
    }
    return out + QLatin1Char(']');
}

QString LongText::outside(const QString& shown)
{
    QString left;
    int depth = 0;
    for (const QChar letter : shown) {
        depth += letter == u'[' ? 1 : 0;
        if (depth == 0) {
            left += letter;
        }
        depth -= letter == u']' ? 1 : 0;
    }
    return left;
}

} // namespace brimful::test
