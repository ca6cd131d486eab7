// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Withdrawals of vehicles, of readings of known sizes and of flushes and their undoing, each with
/// who, when and why; the newest row of a vehicle, reading or flush is valid. And where on the card
/// (true mm) the thing of a reading lay, which says whether two readings of a photo are of the same
/// thing.
const std::string_view schemaVersion12 = R"sql(
CREATE TABLE vehicle_withdrawal (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    vehicle_id INTEGER NOT NULL REFERENCES vehicle (id) ON DELETE RESTRICT,
    withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK (withdrawn = 0 OR length(why) > 0)
) STRICT;

CREATE INDEX vehicle_withdrawal_of_vehicle ON vehicle_withdrawal (vehicle_id, id);

CREATE TABLE check_withdrawal (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    check_id INTEGER NOT NULL REFERENCES thing_check (id) ON DELETE RESTRICT,
    withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK (withdrawn = 0 OR length(why) > 0)
) STRICT;

CREATE INDEX check_withdrawal_of_check ON check_withdrawal (check_id, id);

CREATE TABLE flush_withdrawal (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    flush_id INTEGER NOT NULL REFERENCES flush (id) ON DELETE RESTRICT,
    withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK (withdrawn = 0 OR length(why) > 0)
) STRICT;

CREATE INDEX flush_withdrawal_of_flush ON flush_withdrawal (flush_id, id);

CREATE TABLE check_place (
    check_id INTEGER PRIMARY KEY REFERENCES thing_check (id) ON DELETE RESTRICT,
    x_mm REAL NOT NULL CHECK (x_mm BETWEEN -1000 AND 1000),
    y_mm REAL NOT NULL CHECK (y_mm BETWEEN -1000 AND 1000)
) STRICT;
)sql";

} // namespace swarfbook
