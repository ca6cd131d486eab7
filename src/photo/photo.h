// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <cstdint>
#include <string>

namespace swarfbook {

/// Facts about a photo's file, as the measurement document names them.
struct PhotoFacts {
    std::string file;             ///< file name as given, without its folders
    std::string sha256;           ///< of the file's bytes; empty when it could not be read
    int widthPx = 0;              ///< of the upright picture; 0 when unknown
    int heightPx = 0;             ///< of the upright picture; 0 when unknown
    int orientation = 1;          ///< EXIF tag 274 as stored in the file (1 when absent)
    std::string taken;            ///< EXIF capture time "YYYY-MM-DDThh:mm:ss", empty when absent
    double focalLength35Mm = 0.0; ///< EXIF 35 mm equivalent, 0 when absent
    std::string cameraMark{};     ///< distinguishes models of camera without naming them:
                                  ///< 8 hex digits of a SHA-256 of EXIF make and model, or empty
};

/// A decoded photo, upright.
///
/// Pixel convention (OpenCV's): the centre of the top-left pixel is (0, 0), u to the right, v down:
///
///     (-0.5,-0.5) +-----+-----+
///                 | 0,0 | 1,0 |    the picture covers [-0.5, width - 0.5] x [-0.5, height - 0.5]
///                 +-----+-----+
struct Photo {
    cv::Mat bgr; ///< H x W, CV_8UC3, sRGB-encoded, EXIF orientation already applied
    PhotoFacts facts;
};

} // namespace swarfbook
