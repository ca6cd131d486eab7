// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "report/annotated_photo.h"
#include "report/drawing.h"
#include "report/scale_bar.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The texts of a legend beside its drawn samples.
struct LegendWords {
    std::string title;
    std::vector<int> byType = std::vector<int>(particleTypeCount, 0); ///< pieces outlined
    int slivers = 0;
    bool leftOut = false;           ///< a hatched part is in the picture
    std::vector<std::string> notes; ///< sentences below the samples
};

/// Words of a measured photo's legend. `withoutLetter`: pieces without a letter because there was
/// no room.
LegendWords legendWords(const Measurement& measurement, const AnnotationOptions& options,
                        int withoutLetter);

/// The place of a legend.
struct LegendBand {
    Spot topLeft;
    double width = 0.0;
    double em = 12.0;         ///< letter size
    bool measureOnly = false; ///< nothing is drawn
};

/// Draws the legend in a band, from its top down; returns its height.
double drawLegend(cairo_t* pen, const LegendBand& band, const LegendWords& words,
                  const ScaleBar& bar);

} // namespace swarfbook
