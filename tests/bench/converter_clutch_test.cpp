// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/converter_clutch.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Words of the trade for the torque converter's clutch; common practice, no source.
TEST_CASE("the converter clutch is known by its names and by the kind of its solenoid") {
    for (const char* name : {"converter", "TCC", "TCC regulator", "Lock-up", "lockup", "lock up",
                             "torque converter clutch"}) {
        INFO(name);
        CHECK(namesConverterClutch(name));
        CHECK(servesConverterClutch(SolenoidKind::onOff, name));
    }
    for (const char* name : {"A", "line", "shift lock", "clutch Q", "2-3 shift valve"}) {
        INFO(name);
        CHECK_FALSE(namesConverterClutch(name));
    }
    CHECK(servesConverterClutch(SolenoidKind::converter, "E"));
}
