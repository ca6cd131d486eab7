// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// The judgements of visits with a known outcome, so that they need not be judged anew each time.
/// The rows can be made again at any time (judged_case.h).
const std::string_view schemaVersion6 = R"sql(
CREATE TABLE judged_case (
    visit_id INTEGER PRIMARY KEY REFERENCES visit (id) ON DELETE RESTRICT,
    rules TEXT NOT NULL CHECK (length(rules) = 64 AND rules NOT GLOB '*[^0-9a-f]*'),
    outcome TEXT NOT NULL CHECK (length(outcome) BETWEEN 1 AND 200),
    pattern TEXT NOT NULL CHECK (length(pattern) <= 200),
    held TEXT NOT NULL CHECK (held IN ('fixed', 'came-back', 'not-known')),
    as_suggested INTEGER NOT NULL CHECK (as_suggested IN (0, 1)),
    sum TEXT NOT NULL CHECK (length(sum) = 64 AND sum NOT GLOB '*[^0-9a-f]*')
) STRICT;

CREATE INDEX observation_of_kind ON observation (kind, visit_id);
)sql";

} // namespace swarfbook
