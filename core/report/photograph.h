// A photograph as whoever decodes pictures gives it: what the record would keep, and what is seen in it.
#pragma once

#include "core/ledger/photos.h"

#include <optional>
#include <string>

namespace brimful::report {

struct Photograph {
    std::string bytes; // of the file that is kept
    bool dark{};
    bool blurred{};
    std::optional<std::string> symbol; // text of a QR symbol; whose tag it is the yard says
    std::optional<ledger::Look> look; // absent: too dark or even to be told from others
};

} // namespace brimful::report
