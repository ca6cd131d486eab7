// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Flushes of single parts: the clean tray before the first pass with what it showed by itself, and
/// which photo of the tray belongs to which pass. The newest row of a photo says to which flush and
/// step it belongs; the oldest says its place in the order.
const std::string_view schemaVersion10 = R"sql(
CREATE TABLE flush (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    visit_id INTEGER NOT NULL REFERENCES visit (id) ON DELETE RESTRICT,
    part TEXT NOT NULL CHECK (length(part) BETWEEN 1 AND 100),
    tray_sha256 TEXT REFERENCES blank (sha256) ON DELETE RESTRICT,
    tray_finding TEXT CHECK (tray_finding IS NULL OR json_valid(tray_finding)),
    started_at TEXT NOT NULL
        CHECK (started_at GLOB '????-??-??T??:??:??Z' AND started_at NOT GLOB '*[^0-9TZ:-]*'),
    CHECK ((tray_sha256 IS NULL) = (tray_finding IS NULL))
) STRICT;

CREATE INDEX flush_of_visit ON flush (visit_id, id);

CREATE TABLE flush_pass (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    flush_id INTEGER NOT NULL REFERENCES flush (id) ON DELETE RESTRICT,
    photo_id INTEGER NOT NULL REFERENCES photo (id) ON DELETE RESTRICT,
    step TEXT NOT NULL CHECK (step IN ('wash', 'demagnetise', 'air', 'hot')),
    recorded_at TEXT NOT NULL
        CHECK (recorded_at GLOB '????-??-??T??:??:??Z' AND recorded_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE INDEX flush_pass_of_photo ON flush_pass (photo_id, id);
)sql";

} // namespace swarfbook
