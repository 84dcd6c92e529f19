// B612 (SIL Open Font License 1.1, its text beside it in the program) from the program itself.
#include "app/print/paint.h"

#include <QFontDatabase>

static void takeResources() { Q_INIT_RESOURCE(brimful_fonts); } // a resource in a static library is taken in outside a namespace

namespace brimful::print {

void loadFonts()
{
    static const bool loaded = [] {
        takeResources();
        bool all = true;
        // B612 Mono calls itself B612 too: the face that is loaded last keeps the name.
        for (const char* file : {"B612Mono-Regular.otf", "B612Mono-Bold.otf", "B612-Regular.otf", "B612-Bold.otf"}) {
            all = QFontDatabase::addApplicationFont(QStringLiteral(":/brimful/fonts/") + QLatin1String(file)) >= 0 && all;
        }
        return all;
    }();
    Q_ASSERT(loaded);
}

QString fontFamily() { return QStringLiteral("B612"); }
QString monoFamily() { return QStringLiteral("B612 Mono"); }

} // namespace brimful::print
