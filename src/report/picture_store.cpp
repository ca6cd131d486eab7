// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/page_writer.h"
#include "report/picture_bytes.h"

#include <stdexcept>
#include <vector>

namespace swarfbook {

cairo_surface_t* PictureStore::surfaceOf(const cv::Mat& bgr) {
    CairoSurface& kept = kept_[bgr.data];
    if (kept)
        return kept.get();
    auto* bytes = new std::vector<unsigned char>(jpegBytes(bgr, 88));
    // Only the JPEG reaches the page; the surface's own pixels carry nothing but its size.
    kept.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, bgr.cols, bgr.rows));
    const cairo_status_t status = cairo_surface_set_mime_data(
        kept.get(), CAIRO_MIME_TYPE_JPEG, bytes->data(), bytes->size(),
        [](void* data) { delete static_cast<std::vector<unsigned char>*>(data); }, bytes);
    if (status != CAIRO_STATUS_SUCCESS) {
        delete bytes;
        throw std::runtime_error("A picture could not be put on a page.");
    }
    return kept.get();
}

} // namespace swarfbook
