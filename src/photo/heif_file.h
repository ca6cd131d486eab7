// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/decoders.h"

#include <optional>
#include <string>
#include <vector>

/// Inside photo/ only: how a HEIC file says where its picture is (ISO/IEC 14496-12 and 23008-12).
/// Checked: tests/photo/damaged_heic_test.cpp.
namespace swarfbook::decoding {

/// A stretch of the file.
struct Stretch {
    std::uint64_t at = 0, size = 0;
};

/// Of the main picture, as its descriptions say it.
struct HeifPicture {
    int rows = 1, columns = 1; ///< of the grid; 1 x 1 when the picture is in one piece
    /// Each tile's data, row by row; a tile without any has an empty list.
    std::vector<std::vector<Stretch>> tiles;
    std::vector<int>
        turns; ///< in order: 1 to 3 quarter turns to the left; 4 upside down, 5 mirrored
    bool dataCutOff = false;  ///< a stretch ends beyond the file
    bool dataOutside = false; ///< a stretch is not in the file's boxes of picture data
};

/// Whether the file ends inside one of its outer boxes or before "meta", which says what picture
/// is in it.
bool endsTooEarly(Bytes file);

/// Nothing if the descriptions cannot be followed; then libheif says what is wrong.
std::optional<HeifPicture> describedPicture(Bytes file);

/// The tile's bytes, joined.
std::vector<unsigned char> dataOf(Bytes file, const std::vector<Stretch>& tile);

/// Where a tile lies in the upright picture: "its upper left part, tile 3 of 48,".
std::string whereInPicture(const HeifPicture& picture, std::size_t tile);

} // namespace swarfbook::decoding
