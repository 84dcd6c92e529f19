// What a drawing on the screen is made from: a vessel as it stands, a hold point's blind, a tag, a figure.
#pragma once

#include "app/print/pages.h"
#include "core/report/view.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <memory>

namespace brimful::tablet {

// A look at a vessel, shared between pages; nothing where there is none.
struct VesselPicture {
    Q_GADGET
    QML_VALUE_TYPE(vesselPicture)
public:
    std::shared_ptr<const report::VesselView> view;
    bool operator==(const VesselPicture& other) const { return view == other.view; }
};

struct BlindPicture {
    Q_GADGET
    QML_VALUE_TYPE(blindPicture)
public:
    print::BlindState state;
    bool operator==(const BlindPicture& other) const
    {
        return state.questions == other.state.questions && state.answered == other.state.answered && state.asking == other.state.asking
            && state.locks == other.state.locks && state.locked == other.state.locked && state.released == other.state.released;
    }
};

} // namespace brimful::tablet
