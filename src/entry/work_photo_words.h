// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// Whether photos of work go with this kind of observation: it records work that was done.
bool takesWorkPhotos(std::string_view kind);

/// "photos: before drain.jpg, after clean.jpg": those of an observation; "" if it has no photos.
/// Checked: tests/cli/work_done_test.cpp, tests/web/work_photo_pages_test.cpp.
std::string workPhotoWords(const std::vector<WorkPhoto>& photos, std::int64_t observation);

} // namespace swarfbook
