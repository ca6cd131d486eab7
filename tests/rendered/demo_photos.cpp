// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/demo_photos.h"

#ifdef SWARFBOOK_SANITIZED
#include "files/temporary_folder.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#endif

namespace swarfbook::test {
namespace {

namespace fs = std::filesystem;

/// A function, because other files' constants need it before this file's are made.
fs::path shipped() {
    return fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images";
}

#ifdef SWARFBOOK_SANITIZED
/// Halves every photo of a folder into another folder; other files are copied.
void halve(const fs::path& from, const fs::path& to) {
    for (const auto& entry : fs::directory_iterator(from)) {
        const fs::path copy = to / entry.path().filename();
        if (entry.path().extension() != ".jpg") {
            fs::copy(entry.path(), copy, fs::copy_options::recursive);
            continue;
        }
        cv::Mat half;
        cv::resize(cv::imread(entry.path().string()), half, {}, 0.5, 0.5, cv::INTER_AREA);
        cv::imwrite(copy.string(), half, {cv::IMWRITE_JPEG_QUALITY, 95});
    }
}
#endif

} // namespace

#ifdef SWARFBOOK_SANITIZED
const fs::path& demoPhotos() {
    static const TemporaryFolder folder;
    static const bool made = (halve(shipped(), folder.path()), true);
    (void)made;
    return folder.path();
}
#else
const fs::path& demoPhotos() {
    static const fs::path folder = shipped();
    return folder;
}
#endif

} // namespace swarfbook::test
