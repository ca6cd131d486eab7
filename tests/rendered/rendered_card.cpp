// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/rendered_card.h"

#include "rendered/exposure.h"
#include "rendered/scene.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

namespace swarfbook::test {
namespace {

/// Photo to card by the camera's own inverse: Newton's method for the distortion.
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
                const double over = s * (1.0 + r2 * (camera_.k1 + camera_.k2 * r2)) - 1.0;
                const double step = over / (1.0 + r2 * (3.0 * camera_.k1 + 5.0 * camera_.k2 * r2));
                s -= step;
                if (std::abs(step) < 1e-12) // the step after it would be its square
                    break;
            }
        const cv::Vec3d q = inverse_ * cv::Vec3d(xd * s, yd * s, 1.0);
        const PointOnCard flat{q[0] / q[2], q[1] / q[2]};
        return drawing_.bendRadius > 0.0 ? onBent(flat) : flat;
    }

  private:
    /// How far along the line of sight, from the plane (0) to the camera (1), the cylinder is met:
    /// the lesser root of a quadratic equation. Nothing where that is beyond the cylinder's flanks.
    [[nodiscard]] std::optional<double> towardsCamera(double off, double cameraOff) const {
        const double radius = drawing_.bendRadius;
        const double above = drawing_.bentUp ? -place_[2] : place_[2];
        // (off + t * run)^2 + (radius - t * above)^2 = radius^2
        const double run = cameraOff - off;
        const double a = run * run + above * above, b = off * run - radius * above;
        const double root = b * b - a * off * off;
        if (root < 0.0 || b == 0.0)
            return std::nullopt;
        const double t = off * off / (b < 0.0 ? -b + std::sqrt(root) : -b - std::sqrt(root));
        return std::abs(off + t * run) < 0.9 * radius ? std::optional(t) : std::nullopt;
    }

    /// Place on the card's paper where the line of sight to a place of the plane meets the cylinder
    /// it lies on: along the line, else fixed-point on the height; then the arc's length.
    [[nodiscard]] PointOnCard onBent(PointOnCard flat) const {
        const double radius = drawing_.bendRadius;
        const cv::Point2d middle(drawing_.layout.outer.width / 2, drawing_.layout.outer.height / 2);
        const double above = -place_[2];
        cv::Point2d at(flat.x, flat.y);
        const auto met = drawing_.bentDown ? towardsCamera(flat.y - middle.y, place_[1] - middle.y)
                                           : towardsCamera(flat.x - middle.x, place_[0] - middle.x);
        if (met)
            at += *met * (cv::Point2d(place_[0], place_[1]) - at);
        for (int i = 0; i < 20 && !met; ++i) {
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

/// Whether the pixels of one row and its neighbours show the same thing, column by column.
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

} // namespace

View::View(const Drawing& drawing, const Camera& camera)
    : light_(areaSampled(Scene(drawing, camera), camera, drawing)), focal_(camera.focal) {}

Photo View::exposed(const Exposure& exposure) const {
    Photo photo;
    photo.bgr = exposedCodes(light_, exposure);
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
