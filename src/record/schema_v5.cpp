// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Makes every table anew, with a check of every value that becomes a path, a key, a size or a
/// number in a sum. The old tables are renamed first, and the new ones get the statements below
/// word for word, so that the schema of a book can be compared with them. Text that should be JSON
/// but is not is kept as a JSON string; its reader says that it is damaged.
const std::string_view schemaVersion5 = R"sql(
PRAGMA legacy_alter_table = ON;
ALTER TABLE vehicle RENAME TO was_vehicle;
ALTER TABLE visit RENAME TO was_visit;
ALTER TABLE photo RENAME TO was_photo;
ALTER TABLE finding RENAME TO was_finding;
ALTER TABLE correction RENAME TO was_correction;
ALTER TABLE observation RENAME TO was_observation;
ALTER TABLE card RENAME TO was_card;
ALTER TABLE thing_check RENAME TO was_thing_check;
ALTER TABLE blank RENAME TO was_blank;
PRAGMA legacy_alter_table = OFF;

CREATE TABLE vehicle (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    label TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (length(label) BETWEEN 1 AND 4000),
    plate TEXT NOT NULL CHECK (length(plate) <= 4000),
    vin TEXT NOT NULL CHECK (length(vin) <= 4000),
    note TEXT NOT NULL CHECK (length(note) <= 4000),
    unit TEXT NOT NULL CHECK (length(unit) <= 4000),
    added_at TEXT NOT NULL
        CHECK (added_at GLOB '????-??-??T??:??:??Z' AND added_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE visit (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    vehicle_id INTEGER NOT NULL REFERENCES vehicle (id) ON DELETE RESTRICT,
    date TEXT NOT NULL CHECK (date IS date(date) AND date BETWEEN '1980-01-01' AND '9999-12-31'),
    odometer_km REAL CHECK (odometer_km BETWEEN 0 AND 6000000),
    odometer_replaced INTEGER NOT NULL CHECK (odometer_replaced IN (0, 1)),
    complaint TEXT NOT NULL CHECK (length(complaint) <= 4000),
    looked_by TEXT NOT NULL CHECK (length(looked_by) <= 4000),
    since_clean_km REAL CHECK (since_clean_km BETWEEN 0 AND 6000000),
    last_clean TEXT NOT NULL
        CHECK (last_clean = '' OR (last_clean IS date(last_clean) AND
                                   last_clean BETWEEN '1980-01-01' AND '9999-12-31')),
    added_at TEXT NOT NULL
        CHECK (added_at GLOB '????-??-??T??:??:??Z' AND added_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE photo (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    visit_id INTEGER NOT NULL REFERENCES visit (id) ON DELETE RESTRICT,
    place TEXT NOT NULL
        CHECK (place IN ('pan', 'magnet', 'filter', 'tray', 'pad', 'strained')),
    sha256 TEXT NOT NULL UNIQUE
        CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    extension TEXT NOT NULL CHECK (extension IN ('jpg', 'png', 'heic', 'photo')),
    byte_count INTEGER NOT NULL CHECK (byte_count BETWEEN 0 AND 268435456),
    file_name TEXT NOT NULL CHECK (length(file_name) <= 4000 AND instr(file_name, '/') = 0),
    sampling TEXT NOT NULL CHECK (length(sampling) <= 4000),
    added_at TEXT NOT NULL
        CHECK (added_at GLOB '????-??-??T??:??:??Z' AND added_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE finding (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    photo_id INTEGER NOT NULL REFERENCES photo (id) ON DELETE RESTRICT,
    measurement TEXT NOT NULL CHECK (json_valid(measurement)),
    mapping TEXT CHECK (mapping IS NULL OR json_valid(mapping)),
    options TEXT NOT NULL CHECK (json_valid(options)),
    program_version TEXT NOT NULL CHECK (length(program_version) <= 100),
    measured_at TEXT NOT NULL
        CHECK (measured_at GLOB '????-??-??T??:??:??Z' AND measured_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    visit_id INTEGER REFERENCES visit (id) ON DELETE RESTRICT,
    photo_id INTEGER REFERENCES photo (id) ON DELETE RESTRICT,
    before TEXT NOT NULL CHECK (json_valid(before)),
    corrected_at TEXT NOT NULL
        CHECK (corrected_at GLOB '????-??-??T??:??:??Z' AND corrected_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK ((visit_id IS NULL) <> (photo_id IS NULL))
) STRICT;

CREATE TABLE observation (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    visit_id INTEGER NOT NULL REFERENCES visit (id) ON DELETE RESTRICT,
    kind TEXT NOT NULL
        CHECK (length(kind) BETWEEN 1 AND 40 AND kind NOT GLOB '*[^a-z0-9_-]*'),
    json TEXT NOT NULL CHECK (json_valid(json)),
    recorded_at TEXT NOT NULL
        CHECK (recorded_at GLOB '????-??-??T??:??:??Z' AND recorded_at NOT GLOB '*[^0-9TZ:-]*'),
    observed_by TEXT NOT NULL DEFAULT '' CHECK (length(observed_by) <= 4000),
    corrects INTEGER REFERENCES observation (id) ON DELETE RESTRICT CHECK (corrects < id)
) STRICT;

CREATE TABLE card (
    serial TEXT PRIMARY KEY COLLATE NOCASE CHECK (length(serial) BETWEEN 1 AND 100),
    layout TEXT NOT NULL CHECK (layout IN ('close', 'wide')),
    measured_bar_mm REAL CHECK (measured_bar_mm > 0 AND measured_bar_mm <= 1000000),
    printed_at TEXT NOT NULL
        CHECK (printed_at GLOB '????-??-??T??:??:??Z' AND printed_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE thing_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    photo_sha256 TEXT NOT NULL
        CHECK (length(photo_sha256) = 64 AND photo_sha256 NOT GLOB '*[^0-9a-f]*'),
    known_text TEXT NOT NULL CHECK (length(known_text) BETWEEN 1 AND 4000),
    known_mm REAL NOT NULL CHECK (known_mm > 0 AND known_mm <= 1000000),
    known_u_mm REAL NOT NULL CHECK (known_u_mm BETWEEN 0 AND 1000000),
    thing TEXT NOT NULL CHECK (thing IN ('', 'shank', 'wire', 'strip', 'ball')),
    reading_mm REAL NOT NULL CHECK (reading_mm > 0 AND reading_mm <= 1000000),
    reading_u_mm REAL NOT NULL CHECK (reading_u_mm > 0 AND reading_u_mm <= 1000000),
    seen_by TEXT NOT NULL CHECK (length(seen_by) <= 4000),
    phone TEXT NOT NULL CHECK (length(phone) <= 4000),
    layout TEXT NOT NULL CHECK (layout IN ('close', 'wide')),
    serial TEXT NOT NULL COLLATE NOCASE CHECK (length(serial) <= 100),
    print_scale_checked INTEGER NOT NULL CHECK (print_scale_checked IN (0, 1)),
    program_version TEXT NOT NULL CHECK (length(program_version) <= 100),
    checked_at TEXT NOT NULL
        CHECK (checked_at GLOB '????-??-??T??:??:??Z' AND checked_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE TABLE blank (
    sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    extension TEXT NOT NULL CHECK (extension IN ('jpg', 'png', 'heic', 'photo')),
    byte_count INTEGER NOT NULL CHECK (byte_count BETWEEN 0 AND 268435456),
    file_name TEXT NOT NULL CHECK (length(file_name) <= 4000 AND instr(file_name, '/') = 0),
    added_at TEXT NOT NULL
        CHECK (added_at GLOB '????-??-??T??:??:??Z' AND added_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

INSERT INTO vehicle SELECT id, label, plate, vin, note, unit, added_at FROM was_vehicle;
INSERT INTO visit
    SELECT id, vehicle_id, date, odometer_km, odometer_replaced, complaint, looked_by,
           since_clean_km, last_clean, added_at FROM was_visit;
INSERT INTO photo
    SELECT id, visit_id, place, sha256, extension, byte_count, file_name, sampling, added_at
    FROM was_photo;
INSERT INTO finding
    SELECT id, photo_id,
           CASE WHEN json_valid(measurement) THEN measurement ELSE json_quote(measurement) END,
           CASE WHEN mapping IS NULL OR json_valid(mapping) THEN mapping
                ELSE json_quote(mapping) END,
           CASE WHEN json_valid(options) THEN options ELSE json_quote(options) END,
           program_version, measured_at FROM was_finding;
INSERT INTO correction
    SELECT id, visit_id, photo_id,
           CASE WHEN json_valid(before) THEN before ELSE json_quote(before) END, corrected_at
    FROM was_correction;
INSERT INTO observation
    SELECT id, visit_id, kind, CASE WHEN json_valid(json) THEN json ELSE json_quote(json) END,
           recorded_at, observed_by, corrects FROM was_observation ORDER BY id;
INSERT INTO card SELECT serial, layout, measured_bar_mm, printed_at FROM was_card;
INSERT INTO thing_check
    SELECT id, photo_sha256, known_text, known_mm, known_u_mm, thing, reading_mm, reading_u_mm,
           seen_by, phone, layout, serial, print_scale_checked, program_version, checked_at
    FROM was_thing_check;
INSERT INTO blank SELECT sha256, extension, byte_count, file_name, added_at FROM was_blank;

-- Numbers that were given once are never given again.
INSERT INTO sqlite_sequence (name, seq)
    SELECT substr(name, 5), 0 FROM sqlite_sequence AS was WHERE name GLOB 'was_*' AND NOT EXISTS
        (SELECT 1 FROM sqlite_sequence WHERE name = substr(was.name, 5));
UPDATE sqlite_sequence SET seq = max(seq, coalesce(
    (SELECT was.seq FROM sqlite_sequence AS was WHERE was.name = 'was_' || sqlite_sequence.name),
    0));

DROP TABLE was_finding;
DROP TABLE was_correction;
DROP TABLE was_photo;
DROP TABLE was_observation;
DROP TABLE was_visit;
DROP TABLE was_vehicle;
DROP TABLE was_card;
DROP TABLE was_thing_check;
DROP TABLE was_blank;

CREATE INDEX visit_of_vehicle ON visit (vehicle_id, date, id);
CREATE INDEX photo_of_visit ON photo (visit_id, id);
CREATE INDEX finding_of_photo ON finding (photo_id, id);
CREATE INDEX correction_of_visit ON correction (visit_id, id);
CREATE INDEX correction_of_photo ON correction (photo_id, id);
CREATE INDEX observation_of_visit ON observation (visit_id, id);
CREATE UNIQUE INDEX correction_of_observation ON observation (corrects) WHERE corrects IS NOT NULL;
CREATE INDEX thing_check_of_photo ON thing_check (photo_sha256, id);
)sql";

} // namespace swarfbook
