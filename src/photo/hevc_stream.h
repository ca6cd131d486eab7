// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <libde265/de265.h>
#include <memory>
#include <vector>

/// Inside photo/ only: decoding one HEVC stream by libde265, as it is or with a change that shows
/// where its reading ends. Checked: tests/photo/damaged_heic_test.cpp.
namespace swarfbook::decoding {

using Stream = std::vector<unsigned char>;

/// What is done to a copy of a stream to see where its reading ends.
enum class Probe { none, bytesBehind, changedEnd, moreChangedEnd };

struct Free265 {
    void operator()(de265_decoder_context* context) const { de265_free_decoder(context); }
};
using HevcContext = std::unique_ptr<de265_decoder_context, Free265>;

/// What one decoding gave; the picture belongs to the context.
struct Decoded {
    std::unique_ptr<unsigned char> ground; ///< the context fills its pictures with it first
    HevcContext context;
    const de265_image* picture = nullptr;
    bool broken = false;
};

Decoded decoded(const Stream& stream, Probe probe);

/// The values of one plane, row by row without gaps, each of `depth` bits in 1 or 2 bytes.
struct Plane {
    Stream bytes;
    int width, height, depth;
};

/// None where there is no picture.
std::vector<Plane> planesFrom(const de265_image* picture);

/// Whether two pictures differ in any value.
bool differ(const std::vector<Plane>& a, const std::vector<Plane>& b);

} // namespace swarfbook::decoding
