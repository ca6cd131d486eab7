// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "fuzz/fuzz_target.h"
#include "photo/decode.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <stdexcept>

/// any bytes are a photo or a refusal that says why and what to do.
FUZZ_TARGET(decode_fuzz, data, size) {
    const auto photo = swarfbook::decodePhoto(std::as_bytes(std::span(data, size)), "fuzz.jpg");
    if (photo && (photo->bgr.empty() || photo->bgr.type() != CV_8UC3))
        throw std::logic_error("a photo without a picture");
    if (!photo && (photo.error().detail.empty() || photo.error().advice.empty()))
        throw std::logic_error("a refusal without a reason");
    return 0;
}
