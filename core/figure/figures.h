// Every figure there is, one line each; catalogue.cpp lists them. Inside this room only.
#pragma once

#include "core/figure/figure.h"

namespace brimful::figure {

extern const Figure kBestPose;
extern const Figure kCapacity;
extern const Figure kCutPlan;
extern const Figure kDilutionPath;
extern const Figure kDipChart;
extern const Figure kDrain;
extern const Figure kDraught;
extern const Figure kEvaporation;
extern const Figure kGasToAir;
extern const Figure kInerted;
extern const Figure kJunction;
extern const Figure kLevel;
extern const Figure kMarkOut;
extern const Figure kMeter;
extern const Figure kMixture;
extern const Figure kPublishedLimits;
extern const Figure kPurge;
extern const Figure kRatio;
extern const Figure kResidue;
extern const Figure kSame;
extern const Figure kSampling;
extern const Figure kSupport;
extern const Figure kVentilation;
extern const Figure kWaterFill;

} // namespace brimful::figure
