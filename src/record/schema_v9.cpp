// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Photos of the work of an observation, before and after it was done; their files lie among the
/// originals. One photo may show the work of several observations.
const std::string_view schemaVersion9 = R"sql(
CREATE TABLE work_photo (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    observation_id INTEGER NOT NULL REFERENCES observation (id) ON DELETE RESTRICT,
    moment TEXT NOT NULL CHECK (moment IN ('before', 'after')),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    extension TEXT NOT NULL CHECK (extension IN ('jpg', 'png', 'heic', 'photo')),
    byte_count INTEGER NOT NULL CHECK (byte_count BETWEEN 0 AND 268435456),
    file_name TEXT NOT NULL CHECK (length(file_name) <= 4000 AND instr(file_name, '/') = 0),
    added_at TEXT NOT NULL
        CHECK (added_at GLOB '????-??-??T??:??:??Z' AND added_at NOT GLOB '*[^0-9TZ:-]*'),
    UNIQUE (sha256, observation_id, moment)
) STRICT;

CREATE INDEX work_photo_of_observation ON work_photo (observation_id);
)sql";

} // namespace swarfbook
