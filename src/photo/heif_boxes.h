// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "photo/decoders.h"

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

/// Inside photo/ only: the boxes that a HEIC file consists of (ISO/IEC 14496-12, 4.2).
/// Checked: tests/photo/damaged_heic_test.cpp.
namespace swarfbook::decoding {

/// Reads big-endian numbers one after the other; throws std::out_of_range at the end.
class BoxReader {
  public:
    explicit BoxReader(Bytes bytes) : bytes_(bytes) {}
    std::uint64_t number(std::size_t bytes) {
        std::uint64_t value = 0;
        for (const std::byte b : take(bytes))
            value = value << 8 | std::to_integer<std::uint64_t>(b);
        return value;
    }
    Bytes take(std::size_t count) {
        if (count > left())
            throw std::out_of_range("the box ends");
        const Bytes taken = bytes_.subspan(at_, count);
        at_ += count;
        return taken;
    }
    [[nodiscard]] std::size_t left() const { return bytes_.size() - at_; }
    [[nodiscard]] std::size_t at() const { return at_; }

  private:
    Bytes bytes_;
    std::size_t at_ = 0;
};

struct Box {
    std::string kind;
    std::size_t at = 0; ///< where its content lies in the bytes it was read from
    Bytes content;
};

/// The next box. Throws std::out_of_range if it reaches beyond the end.
Box nextBox(BoxReader& reader);

std::vector<Box> boxesIn(Bytes bytes);

/// The first of this kind. Throws std::invalid_argument where there is none.
const Box& boxOf(const std::vector<Box>& boxes, std::string_view kind);

/// Version and flags of a full box.
struct FullHead {
    std::uint64_t version, flags;
};
FullHead fullHead(BoxReader& reader);

} // namespace swarfbook::decoding
