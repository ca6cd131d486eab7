// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

const std::string_view schemaVersion1 = R"sql(
CREATE TABLE vehicle (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    label TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (length(label) > 0),
    plate TEXT NOT NULL,
    vin TEXT NOT NULL,
    note TEXT NOT NULL,
    unit TEXT NOT NULL,
    added_at TEXT NOT NULL
) STRICT;

CREATE TABLE visit (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    vehicle_id INTEGER NOT NULL REFERENCES vehicle (id) ON DELETE RESTRICT,
    date TEXT NOT NULL CHECK (date IS date(date)),
    odometer_km REAL CHECK (odometer_km >= 0),
    odometer_replaced INTEGER NOT NULL CHECK (odometer_replaced IN (0, 1)),
    complaint TEXT NOT NULL,
    looked_by TEXT NOT NULL,
    since_clean_km REAL CHECK (since_clean_km >= 0),
    last_clean TEXT NOT NULL CHECK (last_clean = '' OR last_clean IS date(last_clean)),
    added_at TEXT NOT NULL
) STRICT;
CREATE INDEX visit_of_vehicle ON visit (vehicle_id, date, id);

CREATE TABLE photo (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    visit_id INTEGER NOT NULL REFERENCES visit (id) ON DELETE RESTRICT,
    place TEXT NOT NULL
        CHECK (place IN ('pan', 'magnet', 'filter', 'tray', 'pad', 'strained')),
    sha256 TEXT NOT NULL UNIQUE
        CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    extension TEXT NOT NULL CHECK (extension IN ('jpg', 'png', 'heic', 'photo')),
    byte_count INTEGER NOT NULL CHECK (byte_count >= 0),
    file_name TEXT NOT NULL,
    sampling TEXT NOT NULL,
    added_at TEXT NOT NULL
) STRICT;
CREATE INDEX photo_of_visit ON photo (visit_id, id);

CREATE TABLE finding (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    photo_id INTEGER NOT NULL REFERENCES photo (id) ON DELETE RESTRICT,
    measurement TEXT NOT NULL CHECK (json_valid(measurement)),
    mapping TEXT CHECK (mapping IS NULL OR json_valid(mapping)),
    options TEXT NOT NULL CHECK (json_valid(options)),
    program_version TEXT NOT NULL,
    measured_at TEXT NOT NULL
) STRICT;
CREATE INDEX finding_of_photo ON finding (photo_id, id);

CREATE TABLE correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    visit_id INTEGER REFERENCES visit (id) ON DELETE RESTRICT,
    photo_id INTEGER REFERENCES photo (id) ON DELETE RESTRICT,
    before TEXT NOT NULL CHECK (json_valid(before)),
    corrected_at TEXT NOT NULL,
    CHECK ((visit_id IS NULL) <> (photo_id IS NULL))
) STRICT;
CREATE INDEX correction_of_visit ON correction (visit_id, id);
CREATE INDEX correction_of_photo ON correction (photo_id, id);

CREATE TABLE observation (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    visit_id INTEGER NOT NULL REFERENCES visit (id) ON DELETE RESTRICT,
    kind TEXT NOT NULL CHECK (length(kind) > 0),
    json TEXT NOT NULL CHECK (json_valid(json)),
    recorded_at TEXT NOT NULL
) STRICT;
CREATE INDEX observation_of_visit ON observation (visit_id, id);

CREATE TABLE card (
    serial TEXT PRIMARY KEY COLLATE NOCASE CHECK (length(serial) > 0),
    layout TEXT NOT NULL CHECK (length(layout) > 0),
    measured_bar_mm REAL CHECK (measured_bar_mm > 0),
    printed_at TEXT NOT NULL
) STRICT;
)sql";

} // namespace swarfbook
