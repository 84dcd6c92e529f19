// The translation context of this room. Private to it.
#pragma once

#include <QCoreApplication>

namespace brimful::text {

struct Text {
    Q_DECLARE_TR_FUNCTIONS(brimful::text)
};
inline QString tr(const char* source, const char* disambiguation = nullptr, int n = -1) { return Text::tr(source, disambiguation, n); }

} // namespace brimful::text
