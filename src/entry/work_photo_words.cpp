// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/work_photo_words.h"

#include "bench/after_repair_fields.h"

#include <fmt/format.h>

namespace swarfbook {

bool takesWorkPhotos(std::string_view kind) {
    return kind == fields::Of<AfterRepair>::kind;
}

std::string workPhotoWords(const std::vector<WorkPhoto>& photos, std::int64_t observation) {
    std::string words;
    for (const WorkPhoto& photo : photos)
        if (photo.observationId == observation)
            words += fmt::format("{} {} {}", words.empty() ? "photos:" : ",",
                                 workMomentWord(photo.moment), photo.fileName);
    return words;
}

} // namespace swarfbook
