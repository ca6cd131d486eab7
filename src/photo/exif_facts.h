// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <span>
#include <string>

namespace swarfbook {

/// What we use of a photo's EXIF block; the default if a tag is absent or makes no sense.
struct ExifFacts {
    int orientation = 1;          ///< tag 274, 1 to 8
    std::string taken;            ///< tag 36867 as "YYYY-MM-DDThh:mm:ss"
    double focalLength35Mm = 0.0; ///< tag 41989
    std::string cameraMark;       ///< 8 hex digits of the SHA-256 of tags 271 and 272, a line break
                                  ///< between them; empty when 272 is absent
};

/// Reads an EXIF block that begins with "Exif" and two zeros (EXIF 2.32). Never throws for what
/// the block holds. Checked: tests/photo/decode_test.cpp.
ExifFacts readExif(std::span<const std::byte> block);

} // namespace swarfbook
