// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/charts.h"

#include <random>

namespace swarfbook::test {

/// A unit drawn by chance: elements, gears of two or three of them (no two alike), a solenoid for
/// each element that is on where its element holds, a bore behind each solenoid.
struct DrawnUnit {
    ApplicationChart chart;
    DrawnUnit(std::mt19937& dice, int elements, int gears);
};

/// A fault in one part that shows from some load on and, perhaps, only when hot.
struct PlantedFault {
    PartName part;
    Load from = Load::light;
    bool onlyHot = false;
};
PlantedFault drawnFault(std::mt19937& dice, const ApplicationChart& chart);

/// The result of driving that gear in this way: the element gives way, or its supply loses
/// pressure.
GearSeen driveWith(const ApplicationChart& chart, const PlantedFault& fault,
                   const std::string& gear, const Driven& driven);

Driven drawnDrive(std::mt19937& dice);

} // namespace swarfbook::test
