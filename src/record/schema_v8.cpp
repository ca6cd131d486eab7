// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// The units and the order of dates in which the workshop sees everything.
const std::string_view schemaVersion8 = R"sql(
CREATE TABLE display_setting (
    name TEXT PRIMARY KEY CHECK (name IN ('distance', 'temperature', 'volume', 'dates')),
    value TEXT NOT NULL CHECK (length(value) <= 100)
) STRICT;
)sql";

} // namespace swarfbook
