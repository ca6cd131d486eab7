// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Withdrawals and their undoing, each with who, when and why; a vehicle's data before a
/// correction; corrections by hand of single pieces, by their place; and the workshop's settings
/// for all reports. The newest entry of a visit, photo or place is valid; a piece's empty word
/// takes its correction back.
const std::string_view schemaVersion7 = R"sql(
CREATE TABLE withdrawal (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    visit_id INTEGER REFERENCES visit (id) ON DELETE RESTRICT,
    photo_id INTEGER REFERENCES photo (id) ON DELETE RESTRICT,
    withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK ((visit_id IS NULL) <> (photo_id IS NULL))
) STRICT;

CREATE INDEX withdrawal_of_visit ON withdrawal (visit_id, id);
CREATE INDEX withdrawal_of_photo ON withdrawal (photo_id, id);

CREATE TABLE vehicle_correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    vehicle_id INTEGER NOT NULL REFERENCES vehicle (id) ON DELETE RESTRICT,
    before TEXT NOT NULL CHECK (json_valid(before)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE piece_correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    photo_id INTEGER NOT NULL REFERENCES photo (id) ON DELETE RESTRICT,
    x_mm REAL NOT NULL CHECK (x_mm BETWEEN -1000 AND 1000),
    y_mm REAL NOT NULL CHECK (y_mm BETWEEN -1000 AND 1000),
    said TEXT NOT NULL
        CHECK (said IN ('', 'bright metal', 'yellow metal', 'lining', 'plastic', 'fibre',
                        'not debris', 'left over')),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE INDEX piece_correction_of_photo ON piece_correction (photo_id, id);

CREATE TABLE setting (
    name TEXT PRIMARY KEY CHECK (name IN ('workshop', 'address', 'telephone', 'paper')),
    value TEXT NOT NULL CHECK (length(value) <= 4000)
) STRICT;
)sql";

} // namespace swarfbook
