// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// Who observed it, and the earlier entry that it corrects or takes back.
const std::string_view schemaVersion3 = R"sql(
ALTER TABLE observation ADD COLUMN observed_by TEXT NOT NULL DEFAULT '';
ALTER TABLE observation ADD COLUMN corrects INTEGER REFERENCES observation (id) ON DELETE RESTRICT;
CREATE UNIQUE INDEX correction_of_observation ON observation (corrects)
    WHERE corrects IS NOT NULL;
)sql";

} // namespace swarfbook
