// B612 (SIL Open Font License 1.1, its text beside it in the program) from the program itself. B612 Mono calls itself
// B612 too, and one style then hides the other, also when the machine has its own copies. So each takes a family name of
// this program's own while it is read into memory; the letters are untouched.
#include "app/print/paint.h"

#include <QFile>
#include <QFontDatabase>

static void takeResources() { Q_INIT_RESOURCE(brimful_fonts); } // a resource in a static library is taken in outside a namespace

namespace brimful::print {

namespace {

constexpr const char* kPlain = "Brim";
constexpr const char* kMono = "Brmm";

class Bytes {
public:
    explicit Bytes(QByteArray& bytes)
        : m_bytes(bytes)
    {
    }
    [[nodiscard]] quint32 number(qsizetype at, int size) const
    {
        quint32 value = 0;
        for (int i = 0; i < size; ++i) {
            value = (value << 8U) | static_cast<quint8>(m_bytes.at(at + i));
        }
        return value;
    }
    void replace(qsizetype at, qsizetype length, const QByteArray& from, const QByteArray& to)
    {
        const QByteArray text = m_bytes.mid(at, length).replace(from, to); // same length
        m_bytes.replace(at, length, text);
    }

private:
    QByteArray& m_bytes;
};

QByteArray wide(const char* word)
{
    QByteArray out;
    for (const char* c = word; *c != '\0'; ++c) {
        out.append('\0').append(*c);
    }
    return out;
}

// OpenType, table 'name': family (1), full name (4), typographic family (16).
QByteArray renamed(QByteArray font, const char* name)
{
    Bytes bytes(font);
    const quint32 tables = bytes.number(4, 2);
    for (quint32 t = 0; t < tables; ++t) {
        const qsizetype record = 12 + 16 * static_cast<qsizetype>(t);
        if (font.mid(record, 4) != "name") {
            continue;
        }
        const qsizetype table = bytes.number(record + 8, 4);
        const quint32 count = bytes.number(table + 2, 2);
        const qsizetype strings = table + bytes.number(table + 4, 2);
        for (quint32 i = 0; i < count; ++i) {
            const qsizetype entry = table + 6 + 12 * static_cast<qsizetype>(i);
            const quint32 id = bytes.number(entry + 6, 2);
            if (id == 1 || id == 4 || id == 16) {
                const qsizetype at = strings + bytes.number(entry + 10, 2);
                bytes.replace(at, bytes.number(entry + 8, 2), wide("B612"), wide(name));
                bytes.replace(at, bytes.number(entry + 8, 2), "B612", name);
            }
        }
    }
    return font;
}

bool loadFace(const char* file, const char* name)
{
    QFile face(QStringLiteral(":/brimful/fonts/") + QLatin1String(file));
    return face.open(QIODevice::ReadOnly) && QFontDatabase::addApplicationFontFromData(renamed(face.readAll(), name)) >= 0;
}

} // namespace

void loadFonts()
{
    static const bool loaded = [] {
        takeResources();
        bool all = loadFace("B612-Regular.otf", kPlain);
        all = loadFace("B612-Bold.otf", kPlain) && all;
        all = loadFace("B612Mono-Regular.otf", kMono) && all;
        return loadFace("B612Mono-Bold.otf", kMono) && all;
    }();
    Q_ASSERT(loaded);
}

QString fontFamily() { return QLatin1String(kPlain); }
QString monoFamily() { return QLatin1String(kMono) + QStringLiteral(" Mono"); }

} // namespace brimful::print
