// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "fuzz/fuzz_target.h"
#include "rendered/rendered_card.h"

#include <opencv2/imgproc.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <span>
#include <stdexcept>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// The fuzzer's bytes, one after the other; zeros when there are no more.
class Bytes {
  public:
    explicit Bytes(std::span<const std::uint8_t> bytes) : rest_(bytes) {}
    [[nodiscard]] bool empty() const { return rest_.empty(); }
    int next() {
        const int value = rest_.empty() ? 0 : rest_.front();
        rest_ = rest_.empty() ? rest_ : rest_.subspan(1);
        return value;
    }
    double between(double low, double high) { return low + (high - low) * next() / 255.0; }

  private:
    std::span<const std::uint8_t> rest_;
};

/// 64 to 400 pixels each way, of squares whose grey or colour is a byte each.
cv::Mat squares(Bytes& bytes) {
    const cv::Size size{64 + bytes.next() * 336 / 255, 64 + bytes.next() * 336 / 255};
    const int side = 1 + bytes.next() % 32;
    cv::Mat cells((size.height + side - 1) / side, (size.width + side - 1) / side, CV_8UC3,
                  cv::Scalar::all(0));
    for (int i = 0; i < static_cast<int>(cells.total()) && !bytes.empty(); ++i)
        cells.at<cv::Vec3b>(i / cells.cols, i % cells.cols) =
            cv::Vec3b::all(static_cast<std::uint8_t>(bytes.next()));
    cv::Mat picture;
    cv::resize(cells, picture, size, 0, 0, cv::INTER_NEAREST);
    return picture;
}

struct CardPhoto {
    Drawing drawing;
    Camera camera;
    Photo photo;
};

/// A well taken photo of an empty card, drawn once.
const CardPhoto& emptyCard(const std::string& layout) {
    static std::map<std::string, CardPhoto> drawn;
    CardPhoto& card = drawn[layout];
    if (card.photo.bgr.empty()) {
        card.drawing.layout = layoutNamed(layout);
        const auto& outer = card.drawing.layout.outer;
        card.camera.size = {880, 660};
        card.camera.focal = 700.0;
        card.camera.aim = {outer.width / 2, outer.height / 2};
        card.camera.distance = 0.9 * outer.width;
        card.camera.tilt = 8.0;
        card.photo = photograph(card.drawing, card.camera, {0.6, 0.6, 1.0, 1.0, 7});
    }
    return card;
}

/// One thing that may lie in the window or over its edge: disc, bar, or a patch of grain.
void layThing(Bytes& bytes, const CardPhoto& card, cv::Mat& picture) {
    const CardRect& w = card.drawing.layout.window;
    const PointInPhoto at = card.camera.mapping().photoFromCard(
        {w.x + bytes.between(-0.05, 1.05) * w.width, w.y + bytes.between(-0.05, 1.05) * w.height});
    const cv::Point2d centre(at.u, at.v);
    const int kind = bytes.next() % 3;
    const double length = bytes.between(1.0, 120.0), width = bytes.between(1.0, 40.0);
    const double blue = bytes.next(), green = bytes.next(), red = bytes.next();
    const cv::Scalar colour(blue, green, red);
    const cv::RotatedRect box(centre, cv::Size2d(length, width),
                              static_cast<float>(bytes.between(0.0, 180.0)));
    if (kind == 0) {
        cv::ellipse(picture, box, colour, cv::FILLED, cv::LINE_AA);
    } else if (kind == 1) {
        const cv::Point2d half(length / 2, width / 2);
        cv::line(picture, centre - half, centre + half, colour, 1 + bytes.next() % 6, cv::LINE_AA);
    } else {
        const cv::Rect patch = box.boundingRect() & cv::Rect({}, picture.size());
        cv::RNG grain(static_cast<std::uint64_t>(bytes.next()) + 1);
        if (!patch.empty())
            grain.fill(picture(patch), cv::RNG::NORMAL, colour, cv::Scalar::all(30));
    }
}

Photo pictureFrom(Bytes& bytes) {
    const int kind = bytes.next() % 3;
    if (kind == 0) {
        Photo photo;
        photo.bgr = squares(bytes);
        return photo;
    }
    const CardPhoto& card = emptyCard(kind == 1 ? "close" : "wide");
    Photo photo = card.photo;
    photo.bgr = card.photo.bgr.clone();
    for (int things = 0; things < 40 && !bytes.empty(); ++things)
        layThing(bytes, card, photo.bgr);
    return photo;
}

} // namespace

/// any picture is measured, every number of it finite (the document's writer
/// throws else), or refused with the reason and what to do.
FUZZ_TARGET(measure_fuzz, data, size) {
    static const AssessData known = loadAssessData();
    Bytes bytes(std::span(data, size));
    AssessOptions options;
    options.place = static_cast<Place>(bytes.next() % 6);
    const Measurement m = assessPhoto(pictureFrom(bytes), known, options);
    if (m.refusal && (m.refusal->detail.empty() || m.refusal->advice.empty()))
        throw std::logic_error("a refusal without a reason");
    if (!m.refusal && !(m.debris && m.card))
        throw std::logic_error("neither measured nor refused");
    toJson(m);
    return 0;
}
