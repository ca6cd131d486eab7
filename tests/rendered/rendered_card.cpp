// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/rendered_card.h"

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

namespace swarfbook::test {
namespace {

struct Square {
    PointOnCard centre;
    double half = 0.0, cosine = 1.0, sine = 0.0;
    [[nodiscard]] cv::Point2d inOwnAxes(PointOnCard p) const {
        const double x = p.x - centre.x;
        const double y = p.y - centre.y;
        return {cosine * x + sine * y, -sine * x + cosine * y};
    }
    [[nodiscard]] bool holds(PointOnCard p) const {
        const cv::Point2d q = inOwnAxes(p);
        return std::abs(q.x) <= half && std::abs(q.y) <= half;
    }
};

/// Which light comes from every place of the card's plane, as an index into a palette.
class Scene {
  public:
    Scene(const Drawing& d, const Camera& camera) : drawing_(d), camera_(camera.place()) {
        const auto grey = [&](double v) { palette_.emplace_back(v, v, v); };
        grey(d.table);
        grey(d.paper);
        grey(d.ink);
        grey(0.5 * d.paper);
        for (const GreyPatch& patch : d.layout.patches)
            grey(d.paper + patch.ink * (d.ink - d.paper));
        for (const Piece& piece : d.pieces)
            palette_.push_back(piece.light);
        for (const Body& body : d.bodies) {
            palette_.push_back(body.light);
            palette_.push_back(body.streak);
        }
        const double turn = d.layout.slantedTurnDeg * radians;
        for (const PointOnCard c : d.layout.slantedCentres)
            slanted_.push_back(
                {c, d.layout.slantedSize / 2.0 + d.inkGrowth, std::cos(turn), std::sin(turn)});
        auto dictionary = cv::aruco::getPredefinedDictionary(
            d.family < 0 ? static_cast<int>(cv::aruco::DICT_APRILTAG_36h11) : d.family);
        for (const auto& [id, centre] : d.layout.markers) {
            if (d.covered.count(id) > 0)
                continue;
            modules_ = dictionary->markerSize + 2;
            cv::Mat picture;
            cv::aruco::drawMarker(dictionary, id, modules_, picture, 1);
            markers_.push_back({centre, picture});
        }
    }

    [[nodiscard]] int indexAt(PointOnCard p) const {
        const CardLayout& l = drawing_.layout;
        if (p.x < 0 || p.y < 0 || p.x > l.outer.width || p.y > l.outer.height)
            return 0;
        const CardRect& w = l.window;
        constexpr double line = 0.1; // half of 0.2 mm
        if (p.x > w.x - line && p.x < w.x + w.width + line && p.y > w.y - line &&
            p.y < w.y + w.height + line)
            return inWindow(p);
        return printedAt(p);
    }
    [[nodiscard]] const cv::Vec3d& light(int index) const {
        return palette_[static_cast<std::size_t>(index)];
    }

  private:
    struct Marker {
        PointOnCard centre;
        cv::Mat picture;
    };

    /// How far from a body's middle line the line of sight to p passes, in radii; over 1: beside.
    [[nodiscard]] double passes(const Body& body, PointOnCard p) const {
        const double radius = body.diameter / 2.0;
        const cv::Vec3d sight = cv::normalize(cv::Vec3d(p.x, p.y, 0.0) - camera_);
        const cv::Vec3d middle =
            cv::Vec3d(body.touches.x, body.touches.y, -radius) - camera_; // z up is negative
        if (body.length <= 0.0)
            return cv::norm(middle - middle.dot(sight) * sight) / radius;
        const double turn = body.turn * radians;
        const cv::Vec3d axis(std::cos(turn), std::sin(turn), 0.0);
        const cv::Vec3d across = cv::normalize(sight.cross(axis));
        // The sight's own place along the bar where it passes nearest to the axis.
        const cv::Vec3d level = cv::normalize(sight - sight.dot(axis) * axis);
        const double reach = middle.dot(level) / sight.dot(level);
        const double along = (reach * sight - middle).dot(axis);
        if (std::abs(along) > body.length / 2.0)
            return 2.0;
        return std::abs(middle.dot(across)) / radius;
    }

    [[nodiscard]] int inWindow(PointOnCard p) const {
        const CardRect& w = drawing_.layout.window;
        for (std::size_t i = drawing_.bodies.size(); i-- > 0;) {
            const double off = passes(drawing_.bodies[i], p);
            if (off <= 1.0)
                return static_cast<int>(4 + drawing_.layout.patches.size() +
                                        drawing_.pieces.size() + 2 * i + (off < 0.2 ? 1 : 0));
        }
        for (std::size_t i = drawing_.pieces.size(); i-- > 0;)
            if (covers(drawing_.pieces[i], p))
                return static_cast<int>(4 + drawing_.layout.patches.size() + i);
        const double in =
            std::min({p.x - w.x, w.x + w.width - p.x, p.y - w.y, w.y + w.height - p.y});
        return in < 0.1 ? 3 : 1;
    }

    static bool covers(const Piece& piece, PointOnCard p) {
        const double x = p.x - piece.centre.x;
        const double y = p.y - piece.centre.y;
        const double reach2 = x * x + y * y;
        const double half = piece.length / 2.0;
        if (piece.width <= 0.0)
            return reach2 <= half * half;
        if (reach2 > half * half + piece.width * piece.width / 4.0)
            return false;
        const double c = std::cos(piece.turn * radians);
        const double s = std::sin(piece.turn * radians);
        return std::abs(c * x + s * y) <= half && std::abs(c * y - s * x) <= piece.width / 2.0;
    }

    [[nodiscard]] int printedAt(PointOnCard p) const {
        const CardLayout& l = drawing_.layout;
        for (const Marker& m : markers_)
            if (Square{m.centre, l.markerSize / 2.0 + drawing_.inkGrowth}.holds(p))
                return markerAt(m, p);
        for (const Square& s : slanted_)
            if (s.holds(p))
                return 2;
        for (std::size_t i = 0; i < l.patches.size(); ++i)
            if (Square{l.patches[i].centre, l.patchSize / 2.0}.holds(p))
                return static_cast<int>(4 + i);
        const bool bar =
            std::abs(p.y - l.checkBarY) < 0.15 && p.x > l.checkBarX0 && p.x < l.checkBarX1;
        return bar ? 2 : 1;
    }

    [[nodiscard]] int markerAt(const Marker& m, PointOnCard p) const {
        const double module = drawing_.layout.markerSize / modules_;
        const auto cell = [&](double offset) {
            return std::clamp(static_cast<int>(std::floor(offset / module + modules_ / 2.0)), 0,
                              modules_ - 1);
        };
        const int x = cell(p.x - m.centre.x);
        const int y = cell(p.y - m.centre.y);
        return m.picture.at<uchar>(y, x) > 127 ? 1 : 2;
    }

    const Drawing& drawing_;
    cv::Vec3d camera_;
    std::vector<cv::Vec3d> palette_;
    std::vector<Square> slanted_;
    std::vector<Marker> markers_;
    int modules_ = 8;
};

/// Photo to card by the camera's own inverse: fixed-point for the distortion.
class Ray {
  public:
    Ray(const Camera& c, const Drawing& d)
        : camera_(c), drawing_(d), place_(c.place()), inverse_(c.mapping().h.inv()),
          centre_((c.size.width - 1) / 2.0, (c.size.height - 1) / 2.0) {}
    [[nodiscard]] PointOnCard onCard(double u, double v) const {
        const double xd = (u - centre_.x) / camera_.focal;
        const double yd = (v - centre_.y) / camera_.focal;
        const double rd2 = xd * xd + yd * yd;
        double s = 1.0;
        if (camera_.k1 != 0.0 || camera_.k2 != 0.0)
            for (int i = 0; i < 12; ++i) {
                const double r2 = rd2 * s * s;
                const double before =
                    std::exchange(s, 1.0 / (1.0 + r2 * (camera_.k1 + camera_.k2 * r2)));
                if (std::abs(s - before) < 1e-15)
                    break;
            }
        const cv::Vec3d q = inverse_ * cv::Vec3d(xd * s, yd * s, 1.0);
        const PointOnCard flat{q[0] / q[2], q[1] / q[2]};
        return drawing_.bendRadius > 0.0 ? onBent(flat) : flat;
    }

  private:
    /// Place on the card's paper where the line of sight to a place of the plane meets the cylinder
    /// it lies on: fixed-point on the height, then the arc's length.
    [[nodiscard]] PointOnCard onBent(PointOnCard flat) const {
        const double radius = drawing_.bendRadius;
        const cv::Point2d middle(drawing_.layout.outer.width / 2, drawing_.layout.outer.height / 2);
        const double above = -place_[2];
        cv::Point2d at(flat.x, flat.y);
        for (int i = 0; i < 20; ++i) {
            const double off = drawing_.bentDown ? at.y - middle.y : at.x - middle.x;
            const double within = std::clamp(off, -0.9 * radius, 0.9 * radius);
            const double rise = radius - std::sqrt(radius * radius - within * within);
            const double height = drawing_.bentUp ? rise : -rise;
            const cv::Point2d before = std::exchange(
                at, cv::Point2d(flat.x, flat.y) +
                        height / above *
                            (cv::Point2d(place_[0], place_[1]) - cv::Point2d(flat.x, flat.y)));
            if (std::abs(at.x - before.x) + std::abs(at.y - before.y) < 1e-9) // mm
                break;
        }
        const auto arc = [&](double off) {
            return radius * std::asin(std::clamp(off / radius, -0.9, 0.9));
        };
        if (drawing_.bentDown)
            return {at.x, middle.y + arc(at.y - middle.y)};
        return {middle.x + arc(at.x - middle.x), at.y};
    }

    const Camera& camera_;
    const Drawing& drawing_;
    cv::Vec3d place_;
    cv::Matx33d inverse_;
    cv::Point2d centre_;
};

cv::Vec3f meanLight(const Scene& scene, const Ray& ray, int u, int v) {
    constexpr int grid = 8;
    const PointOnCard at = ray.onCard(u, v);
    const PointOnCard right = ray.onCard(u + 0.5, v);
    const PointOnCard left = ray.onCard(u - 0.5, v);
    const PointOnCard down = ray.onCard(u, v + 0.5);
    const PointOnCard up = ray.onCard(u, v - 0.5);
    cv::Vec3d sum;
    for (int j = 0; j < grid; ++j)
        for (int i = 0; i < grid; ++i) {
            const double a = (i + 0.5) / grid - 0.5;
            const double b = (j + 0.5) / grid - 0.5;
            sum +=
                scene.light(scene.indexAt({at.x + a * (right.x - left.x) + b * (down.x - up.x),
                                           at.y + a * (right.y - left.y) + b * (down.y - up.y)}));
        }
    return sum * (1.0 / (grid * grid));
}

/// Whether the pixels of one row and its neighbours show one and the same thing, column by column.
std::vector<uchar> alikeDown(const cv::Mat_<ushort>& index, int v) {
    const ushort* above = index[std::max(0, v - 1)];
    const ushort* here = index[v];
    const ushort* below = index[std::min(index.rows - 1, v + 1)];
    std::vector<uchar> alike(static_cast<std::size_t>(index.cols));
    for (int u = 0; u < index.cols; ++u)
        alike[static_cast<std::size_t>(u)] = above[u] == here[u] && below[u] == here[u];
    return alike;
}

/// Whether a pixel shows the same as its eight neighbours.
bool alone(const ushort* row, const std::vector<uchar>& alike, int u) {
    const int last = static_cast<int>(alike.size()) - 1;
    const int left = std::max(0, u - 1), right = std::min(last, u + 1);
    return row[left] == row[u] && row[right] == row[u] && alike[static_cast<std::size_t>(u)] != 0 &&
           alike[static_cast<std::size_t>(left)] != 0 &&
           alike[static_cast<std::size_t>(right)] != 0;
}

/// Linear light of every pixel, area-sampled where more than one thing lies in or beside it.
cv::Mat_<cv::Vec3f> areaSampled(const Scene& scene, const Camera& camera, const Drawing& drawing) {
    const Ray ray(camera, drawing);
    const int rows = camera.size.height;
    const int cols = camera.size.width;
    cv::Mat_<ushort> index(rows, cols);
    cv::Mat_<cv::Vec3f> light(rows, cols);
    cv::parallel_for_(cv::Range(0, rows), [&](const cv::Range& range) {
        for (int v = range.start; v < range.end; ++v)
            for (int u = 0; u < cols; ++u)
                index(v, u) = static_cast<ushort>(scene.indexAt(ray.onCard(u, v)));
    });
    cv::parallel_for_(cv::Range(0, rows), [&](const cv::Range& range) {
        for (int v = range.start; v < range.end; ++v) {
            const std::vector<uchar> alike = alikeDown(index, v);
            const ushort* row = index[v];
            for (int u = 0; u < cols; ++u)
                light(v, u) = alone(row, alike, u) ? cv::Vec3f(scene.light(row[u]))
                                                   : meanLight(scene, ray, u, v);
        }
    });
    return light;
}

/// sRGB encoding, IEC 61966-2-1.
double encoded(double linear) {
    const double l = std::clamp(linear, 0.0, 1.0);
    return 255.0 * (l <= 0.0031308 ? 12.92 * l : 1.055 * std::pow(l, 1.0 / 2.4) - 0.055);
}

/// Light of an even motion: the mean over a straight path, laid down on the pixels bilinearly.
cv::Mat_<cv::Vec3f> smeared(const cv::Mat_<cv::Vec3f>& light, double length, double turn) {
    const int reach = static_cast<int>(length / 2.0) + 2;
    cv::Mat_<float> kernel(2 * reach + 1, 2 * reach + 1, 0.0F);
    constexpr int steps = 4000;
    for (int i = 0; i < steps; ++i) {
        const double at = length * ((i + 0.5) / steps - 0.5);
        const double x = reach + at * std::cos(turn * radians);
        const double y = reach + at * std::sin(turn * radians);
        const int u = static_cast<int>(x), v = static_cast<int>(y);
        const double fu = x - u, fv = y - v;
        kernel(v, u) += static_cast<float>((1 - fu) * (1 - fv) / steps);
        kernel(v, u + 1) += static_cast<float>(fu * (1 - fv) / steps);
        kernel(v + 1, u) += static_cast<float>((1 - fu) * fv / steps);
        kernel(v + 1, u + 1) += static_cast<float>(fu * fv / steps);
    }
    cv::Mat_<cv::Vec3f> moved;
    cv::filter2D(light, moved, -1, kernel, {-1, -1}, 0.0, cv::BORDER_REPLICATE);
    return moved;
}

/// More Gaussian blur from left to right: upright bands of one blur each, laid side by side.
cv::Mat_<cv::Vec3f> blurredMoreToTheRight(const cv::Mat_<cv::Vec3f>& sharp, double growth) {
    cv::Mat_<cv::Vec3f> light = sharp.clone();
    constexpr int bands = 16;
    for (int i = 1; i < bands; ++i) {
        cv::Mat soft;
        const double sigma = growth * i / (bands - 1);
        cv::GaussianBlur(sharp, soft, {}, sigma, sigma, cv::BORDER_REPLICATE);
        const cv::Range band(light.cols * i / bands, light.cols * (i + 1) / bands);
        soft.colRange(band).copyTo(light.colRange(band));
    }
    return light;
}

/// What the lens and the hand make of the light.
cv::Mat_<cv::Vec3f> blurred(cv::Mat_<cv::Vec3f> light, const Exposure& e) {
    if (e.motion > 0.0)
        light = smeared(light, e.motion, e.motionTurn);
    if (e.blurGrowth > 0.0)
        light = blurredMoreToTheRight(light, e.blurGrowth);
    if (e.blurAcross > 0.0 && e.blurDown > 0.0) {
        const auto taps = [](double sigma) { return 2 * static_cast<int>(4.0 * sigma + 1.0) + 1; };
        cv::Mat_<cv::Vec3f> soft;
        cv::GaussianBlur(light, soft, {taps(e.blurAcross), taps(e.blurDown)}, e.blurAcross,
                         e.blurDown, cv::BORDER_REPLICATE);
        return soft;
    }
    return light;
}

/// Row by row: whole pictures of numbers would be paged in and out by the kernel.
cv::Mat expose(const cv::Mat_<cv::Vec3f>& light, const Exposure& e) {
    constexpr int steps = 16384;
    std::vector<float> code(steps + 1);
    for (int i = 0; i <= steps; ++i)
        code[static_cast<std::size_t>(i)] = static_cast<float>(encoded(double(i) / steps));
    cv::Mat picture(light.size(), CV_8UC3);
    cv::Mat_<float> noise(1, 3 * light.cols);
    cv::RNG random(e.seed);
    for (int v = 0; v < light.rows; ++v) {
        random.fill(noise, cv::RNG::NORMAL, 0.0, std::max(e.noise, 1e-6));
        const float* from = light.ptr<float>(v);
        const float* off = noise[0];
        uchar* to = picture.ptr<uchar>(v);
        for (int i = 0; i < 3 * light.cols; ++i) {
            const double l = std::clamp(e.gain * double(from[i]), 0.0, 1.0);
            to[i] = cv::saturate_cast<uchar>(
                code[static_cast<std::size_t>(std::lround(l * steps))] + off[i]);
        }
    }
    return picture;
}

} // namespace

View::View(const Drawing& drawing, const Camera& camera)
    : light_(areaSampled(Scene(drawing, camera), camera, drawing)), focal_(camera.focal) {}

Photo View::exposed(const Exposure& exposure) const {
    Photo photo;
    photo.bgr = expose(blurred(light_, exposure), exposure);
    photo.facts.file = "rendered.png";
    photo.facts.widthPx = light_.cols;
    photo.facts.heightPx = light_.rows;
    photo.facts.focalLength35Mm = 43.2666 * focal_ / std::hypot(light_.cols, light_.rows);
    return photo;
}

Photo photograph(const Drawing& drawing, const Camera& camera, const Exposure& exposure) {
    return View(drawing, camera).exposed(exposure);
}

std::vector<CardLayout> allLayouts() {
    return loadCardLayouts(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                           "calibration/reference-card.json");
}

CardLayout layoutNamed(const std::string& name) {
    for (const CardLayout& layout : allLayouts())
        if (layout.name == name)
            return layout;
    throw std::logic_error("no layout " + name);
}

} // namespace swarfbook::test
