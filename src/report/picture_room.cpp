// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/picture_room.h"

#include <algorithm>
#include <cstdint>
#include <sys/mman.h>
#include <unistd.h>
#include <utility>

namespace swarfbook {
namespace {

/// Gives the memory of rows back to the kernel (madvise(2)); the rows are then empty.
void giveBack(cv::Mat rows) {
    const auto page = static_cast<std::uintptr_t>(sysconf(_SC_PAGESIZE));
    const auto from = (reinterpret_cast<std::uintptr_t>(rows.data) + page - 1) / page * page;
    // rows.dataend is the end of the whole picture
    const uchar* end =
        rows.ptr(rows.rows - 1) + static_cast<std::size_t>(rows.cols) * rows.elemSize();
    const auto to = reinterpret_cast<std::uintptr_t>(end) / page * page;
    if (from < to)
        madvise(reinterpret_cast<void*>(from), to - from, MADV_DONTNEED);
}

} // namespace

cv::Mat withRoom(cv::Mat&& given, int rowsBelow) {
    constexpr int band = 512;                 // rows
    const cv::Mat picture = std::move(given); // freed at the end of this function
    const bool isOurs = picture.u != nullptr && picture.u->refcount == 1;
    cv::Mat room(picture.rows + rowsBelow, picture.cols, picture.type());
    for (int y = 0; y < picture.rows; y += band) {
        const cv::Range rows(y, std::min(picture.rows, y + band));
        picture.rowRange(rows).copyTo(room.rowRange(rows));
        if (isOurs)
            giveBack(picture.rowRange(rows));
    }
    room.rowRange(picture.rows, room.rows).setTo(cv::Scalar::all(255));
    return room;
}

} // namespace swarfbook
