// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/heif_boxes.h"

#include <algorithm>
#include <stdexcept>

namespace swarfbook::decoding {

Box nextBox(BoxReader& reader) {
    std::uint64_t size = reader.number(4);
    Box box;
    for (const std::byte letter : reader.take(4))
        box.kind += static_cast<char>(letter);
    std::uint64_t head = 8;
    if (size == 1) {
        size = reader.number(8);
        head = 16;
    }
    if (size == 0)
        size = head + reader.left();
    if (size < head)
        throw std::invalid_argument("no box is that short");
    box.at = reader.at();
    box.content = reader.take(static_cast<std::size_t>(size - head));
    return box;
}

std::vector<Box> boxesIn(Bytes bytes) {
    std::vector<Box> boxes;
    for (BoxReader reader(bytes); reader.left() > 0;)
        boxes.push_back(nextBox(reader));
    return boxes;
}

const Box& boxOf(const std::vector<Box>& boxes, std::string_view kind) {
    const auto found =
        std::find_if(boxes.begin(), boxes.end(), [&](const Box& b) { return b.kind == kind; });
    if (found == boxes.end())
        throw std::invalid_argument("a box is missing");
    return *found;
}

FullHead fullHead(BoxReader& reader) {
    const std::uint64_t version = reader.number(1);
    return {version, reader.number(3)};
}

} // namespace swarfbook::decoding
