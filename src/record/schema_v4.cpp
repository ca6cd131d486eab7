// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Photos of cleaned places used for findings; their files are among the originals.
const std::string_view schemaVersion4 = R"sql(
CREATE TABLE blank (
    sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64),
    extension TEXT NOT NULL,
    byte_count INTEGER NOT NULL,
    file_name TEXT NOT NULL,
    added_at TEXT NOT NULL
) STRICT;
)sql";

} // namespace swarfbook
