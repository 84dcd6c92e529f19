#include "app/tablet/figures.h"

#include "app/tablet/cut_page.h"
#include "app/tablet/drain_page.h"
#include "app/tablet/draught_page.h"
#include "app/tablet/gas_page.h"
#include "app/tablet/joint_page.h"
#include "app/tablet/level_page.h"
#include "app/tablet/mark_out_page.h"
#include "app/tablet/meter_page.h"
#include "app/tablet/purge_page.h"
#include "app/tablet/sampling_page.h"
#include "app/tablet/stand_page.h"
#include "app/tablet/water_page.h"

#include <QCoreApplication>

#include <array>

namespace brimful::tablet {

namespace {

struct Figures {
    Q_DECLARE_TR_FUNCTIONS(Figures)
};

template <class Page> std::unique_ptr<FigurePage> make() { return std::make_unique<Page>(); }

constexpr std::array kKinds{
    FigureKind{"water", [] { return Figures::tr("Water"); }, [] { return Figures::tr("pocket, weight, best tilt"); }, make<WaterPage>},
    FigureKind{"level", [] { return Figures::tr("Level"); }, [] { return Figures::tr("how much at which depth"); }, make<LevelPage>},
    FigureKind{"drain", [] { return Figures::tr("Draining"); }, [] { return Figures::tr("through a hole, how long"); }, make<DrainPage>},
    FigureKind{"stand", [] { return Figures::tr("Standing"); }, [] { return Figures::tr("loads, tipping, plugs"); }, make<StandPage>},
    FigureKind{"cut", [] { return Figures::tr("Cutting"); }, [] { return Figures::tr("where it meets the water"); }, make<CutPage>},
    FigureKind{"mark-out", [] { return Figures::tr("Mark-out"); }, [] { return Figures::tr("where the lines go"); }, make<MarkOutPage>},
    FigureKind{"joint", [] { return Figures::tr("Joints"); }, [] { return Figures::tr("pattern, hole, string"); }, make<JointPage>},
    FigureKind{"draught", [] { return Figures::tr("Stack"); }, [] { return Figures::tr("draught, areas, liner"); }, make<DraughtPage>},
    FigureKind{
        "sampling", [] { return Figures::tr("Sampling"); }, [] { return Figures::tr("where to hold the probe"); }, make<SamplingPage>},
    FigureKind{"gas", [] { return Figures::tr("Gas"); }, [] { return Figures::tr("what burns, how long"); }, make<GasPage>},
    FigureKind{"purge", [] { return Figures::tr("Purging"); }, [] { return Figures::tr("nitrogen before the air"); }, make<PurgePage>},
    FigureKind{"meter", [] { return Figures::tr("Meter"); }, [] { return Figures::tr("what its number means"); }, make<MeterPage>},
};

} // namespace

std::span<const FigureKind> figureKinds() { return kKinds; }

} // namespace brimful::tablet
