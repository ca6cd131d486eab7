// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/photo_samples.h"

/// HEIC files made by libheif and x265, and grids of tiles as phones write them.
namespace swarfbook::samples {

/// How to code HEVC. `waves`: an entry point for every row of blocks, x265's usual way; without it
/// the stream has no check point before its end.
struct HevcCoding {
    int quality = 60;
    bool waves = false;
};

/// Whether this libheif can write HEVC.
bool canWriteHeic();

/// A picture in one piece.
Bytes heicOf(const cv::Mat& bgr, const HevcCoding& coding = {});

/// A grid of `rows` x `columns` tiles that all have the size of `bgr` divided by them; quarter
/// turns to the left as the phone's "irot" says.
struct Grid {
    int rows = 2, columns = 3;
    int turns = 0;
};
Bytes gridHeicOf(const cv::Mat& bgr, const Grid& grid, const HevcCoding& coding = {});

/// The stretch of `data` in `file`, [first, last).
struct Range {
    std::size_t first = 0, last = 0;
};
/// The content of the file's first box of this kind, wherever it is.
Range contentOf(const Bytes& file, const std::string& kind);
/// Where each tile's data are in a file of gridHeicOf.
std::vector<Range> tilesOf(const Bytes& file);

/// A picture with detail everywhere, as of debris on paper.
cv::Mat speckledPicture(cv::Size size);

} // namespace swarfbook::samples
