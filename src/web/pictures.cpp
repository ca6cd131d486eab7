// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/pictures.h"

#include "assess/card_facts.h"
#include "assess/photo_file.h"
#include "base/errors.h"
#include "report/annotated_photo.h"
#include "report/picture_bytes.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <span>

namespace swarfbook::web {
namespace {

constexpr int smallWidth = 480; ///< pixels of a picture in a list

bool isForBrowsers(std::span<const std::byte> bytes) {
    const auto starts = [&](std::initializer_list<unsigned char> with) {
        return bytes.size() > with.size() &&
               std::equal(with.begin(), with.end(), bytes.begin(),
                          [](unsigned char a, std::byte b) { return std::byte{a} == b; });
    };
    return starts({0xFF, 0xD8, 0xFF}) || starts({0x89, 'P', 'N', 'G'});
}

/// A photo of the book never changes, so a browser need not ask for it twice.
Answer pictureThatStays(std::string type, std::string bytes) {
    return {200,
            std::move(type),
            std::move(bytes),
            {{"Cache-Control", "private, max-age=31536000, immutable"}}};
}

Answer jpeg(const cv::Mat& bgr, int quality) {
    const auto bytes = jpegBytes(bgr, quality);
    return pictureThatStays("image/jpeg", {bytes.begin(), bytes.end()});
}

cv::Mat decoded(const StoredPhoto& photo, const std::vector<std::byte>& bytes) {
    const PhotoFile file = photoFrom(bytes, photo.fileName);
    if (!file.photo)
        throw EvidenceRefused(file.photo.error().detail);
    return file.photo->bgr;
}

} // namespace

bool canBeSeenFromAbove(const StoredPhoto& photo) {
    const Measurement& m = photo.measurement;
    constexpr std::size_t gridPoints =
        25; // of a photo measured; an old or damaged finding lacks them
    return !m.refusal && m.debris && m.card && m.card->grid.size() == gridPoints;
}

SeenFromAbove seenFromAbove(const StoredPhoto& photo) {
    const CardRect area = windowOf(*photo.measurement.card);
    return {area, static_cast<int>(std::lround(area.width * fromAbove.value())),
            static_cast<int>(std::lround(area.height * fromAbove.value()))};
}

std::string outlinesFromAbove(const StoredPhoto& photo) {
    const SeenFromAbove seen = seenFromAbove(photo);
    std::string svg = fmt::format("<svg class=\"marks\" viewBox=\"{:.3f} {:.3f} {:.3f} {:.3f}\" "
                                  "width=\"{}\" height=\"{}\" aria-hidden=\"true\">",
                                  seen.area.x, seen.area.y, seen.area.width, seen.area.height,
                                  seen.widthPx, seen.heightPx);
    for (const Particle& piece : photo.measurement.debris->particles) {
        std::string points;
        for (const PointOnCard& point : piece.outline)
            points += fmt::format("{:.2f},{:.2f} ", point.x, point.y);
        svg += fmt::format("<g{0}><polygon class=\"casing\" points=\"{1}\"/><polygon "
                           "class=\"core\" points=\"{1}\"/></g>",
                           piece.mayBeNone() ? " class=\"doubtful\"" : "", points);
    }
    return svg + "</svg>";
}

Answer originalPicture(const StoredPhoto& photo, const std::vector<std::byte>& bytes) {
    if (!isForBrowsers(bytes))
        return jpeg(decoded(photo, bytes), 92);
    const auto* text = reinterpret_cast<const char*>(bytes.data());
    return pictureThatStays(bytes[0] == std::byte{0xFF} ? "image/jpeg" : "image/png",
                            {text, bytes.size()});
}

Answer smallPicture(const StoredPhoto& photo, const std::vector<std::byte>& bytes) {
    cv::Mat picture = decoded(photo, bytes);
    if (picture.cols > smallWidth)
        cv::resize(picture, picture,
                   {smallWidth, std::max(1, picture.rows * smallWidth / picture.cols)}, 0, 0,
                   cv::INTER_AREA);
    return jpeg(picture, 80);
}

Answer pictureFromAbove(const StoredPhoto& photo, const std::vector<std::byte>& bytes) {
    if (!canBeSeenFromAbove(photo))
        throw EvidenceRefused("The photo was not measured, so it cannot be shown from above.");
    AnnotationOptions bare;
    bare.straightenedAt = fromAbove;
    bare.margin = Millimetres(0.0);
    bare.marks = bare.letters = bare.legend = false;
    return jpeg(annotatedPhoto(decoded(photo, bytes), photo.measurement, bare), 88);
}

Answer pngPicture(const cv::Mat& bgr) {
    const auto bytes = pngBytes(bgr);
    return {200, "image/png", {bytes.begin(), bytes.end()}, {}};
}

} // namespace swarfbook::web
