// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/decoders.h"

#include <mutex>
#include <string>
#include <vector>

/// Inside photo/ only: the HEVC decoder (libde265) under libheif, which reports its doubts.
///
/// libheif's own link to libde265 drops that library's warnings about a damaged stream, and HEVC
/// (ITU-T H.265) as phones write it has no checksum. This decoder takes that link's place. It notes
/// - every warning of libde265 that means a broken stream;
/// - a stream that needed more or less data than it holds. A whole one is read exactly to its stop
///   bit (H.265, 9.3.2.5): bytes put behind it change nothing, and changing its last ones changes
///   pixels. Both are tried beside the decoding, which costs two more decodings;
/// - places of the picture that were never decoded. They keep the value that the memory was filled
///   with, which differs in one of the three decodings;
/// - parts that came out all one colour, or the same as another part.
/// A changed bit goes unnoticed if the stream still reads to its exact end. It alters the
/// brightness or colour of single blocks; tests/photo/damaged_heic_test.cpp counts how often.
namespace swarfbook::decoding {

/// One coded picture of the file: the whole photo, or one tile of its grid.
struct HevcPart {
    std::vector<unsigned char> stream; ///< parameter sets and picture, each with its length before
    std::string damage;     ///< "has data that cannot be followed"; "" when there is none
    std::string pixels;     ///< SHA-256 of the decoded planes
    bool oneColour = false; ///< each plane holds one value only
    bool whiteOrBlack =
        false; ///< that colour is full white or black, as too much or no light gives
};

/// Takes over libheif's decoding of HEVC as long as it lives, and keeps the decoded pictures in
/// order. libheif passes no user data to a decoder, so the whole program can have only one at a
/// time; a second one waits.
class HevcWatch {
  public:
    HevcWatch();
    ~HevcWatch();
    HevcWatch(const HevcWatch&) = delete;
    HevcWatch& operator=(const HevcWatch&) = delete;
    [[nodiscard]] std::vector<HevcPart> parts() const;

  private:
    std::unique_lock<std::mutex> turn_;
};

} // namespace swarfbook::decoding
