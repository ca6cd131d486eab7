// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Readings of things of known size.
const std::string_view schemaVersion2 = R"sql(
CREATE TABLE thing_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    photo_sha256 TEXT NOT NULL
        CHECK (length(photo_sha256) = 64 AND photo_sha256 NOT GLOB '*[^0-9a-f]*'),
    known_text TEXT NOT NULL CHECK (length(known_text) > 0),
    known_mm REAL NOT NULL CHECK (known_mm > 0),
    known_u_mm REAL NOT NULL CHECK (known_u_mm >= 0),
    thing TEXT NOT NULL CHECK (thing IN ('', 'shank', 'wire', 'strip', 'ball')),
    reading_mm REAL NOT NULL CHECK (reading_mm > 0),
    reading_u_mm REAL NOT NULL CHECK (reading_u_mm > 0),
    seen_by TEXT NOT NULL,
    phone TEXT NOT NULL,
    layout TEXT NOT NULL,
    serial TEXT NOT NULL COLLATE NOCASE,
    print_scale_checked INTEGER NOT NULL CHECK (print_scale_checked IN (0, 1)),
    program_version TEXT NOT NULL,
    checked_at TEXT NOT NULL
) STRICT;
CREATE INDEX thing_check_of_photo ON thing_check (photo_sha256, id);
)sql";

} // namespace swarfbook
