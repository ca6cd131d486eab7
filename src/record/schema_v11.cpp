// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/schema.h"

namespace swarfbook {

/// What hands say of how many pieces there are: `places` is a JSON array of [x, y] in true mm on
/// the card. One place is a find that is two pieces, several are finds that are one; the newest row
/// of the same places says whether that stands.
const std::string_view schemaVersion11 = R"sql(
CREATE TABLE piece_regrouping (
    id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
    photo_id INTEGER NOT NULL REFERENCES photo (id) ON DELETE RESTRICT,
    places TEXT NOT NULL CHECK (json_valid(places) AND length(places) <= 4000),
    stands INTEGER NOT NULL CHECK (stands IN (0, 1)),
    why TEXT NOT NULL CHECK (length(why) <= 4000),
    done_by TEXT NOT NULL CHECK (length(done_by) <= 4000),
    done_at TEXT NOT NULL
        CHECK (done_at GLOB '????-??-??T??:??:??Z' AND done_at NOT GLOB '*[^0-9TZ:-]*')
) STRICT;

CREATE INDEX piece_regrouping_of_photo ON piece_regrouping (photo_id, id);
)sql";

} // namespace swarfbook
