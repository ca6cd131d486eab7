// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "rendered/rendered_card.h"

#include <opencv2/aruco.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <qrencode.h>
#include <vector>

namespace swarfbook::test {

/// A square that may lie slanted.
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

/// The light from every place of the card's plane, as an index into a palette.
class Scene {
  public:
    Scene(const Drawing& d, const Camera& camera)
        : drawing_(d), pieces_(d.layout.window),
          printed_({0.0, 0.0, d.layout.outer.width, d.layout.outer.height}),
          camera_(camera.place()) {
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
        sortIntoCells();
        if (!d.serial.empty())
            code_ = {QRcode_encodeString(d.serial.c_str(), 1, QR_ECLEVEL_H, QR_MODE_8, 1),
                     QRcode_free};
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
        for (const std::size_t i : pieces_.at(p))
            if (covers(drawing_.pieces[i], p))
                return static_cast<int>(4 + drawing_.layout.patches.size() + i);
        const double in =
            std::min({p.x - w.x, w.x + w.width - p.x, p.y - w.y, w.y + w.height - p.y});
        return in < 0.1 ? 3 : 1;
    }

    /// Things sorted into the cells of an area that they may reach into.
    class Cells {
      public:
        explicit Cells(const CardRect& area) : area_(area), near_(std::size_t{across} * down) {}
        void add(std::size_t thing, PointOnCard centre, double reach) {
            const auto [x0, y0] = cellAt({centre.x - reach, centre.y - reach});
            const auto [x1, y1] = cellAt({centre.x + reach, centre.y + reach});
            for (std::size_t y = y0; y <= y1; ++y)
                for (std::size_t x = x0; x <= x1; ++x)
                    near_[y * across + x].push_back(thing);
        }
        /// In the order in which they were added.
        [[nodiscard]] const std::vector<std::size_t>& at(PointOnCard p) const {
            const auto [x, y] = cellAt(p);
            return near_[y * across + x];
        }

      private:
        static constexpr std::size_t across = 64, down = 64;
        /// Column and row; a place outside the area belongs to the nearest cell.
        [[nodiscard]] std::pair<std::size_t, std::size_t> cellAt(PointOnCard p) const {
            const auto cell = [](double share, std::size_t cells) {
                const auto all = static_cast<double>(cells);
                return static_cast<std::size_t>(std::clamp(share * all, 0.0, all - 1.0));
            };
            return {cell((p.x - area_.x) / area_.width, across),
                    cell((p.y - area_.y) / area_.height, down)};
        }
        CardRect area_;
        std::vector<std::vector<std::size_t>> near_;
    };

    /// Pieces into the cells of the window, the topmost first; what is printed into those of the
    /// card.
    void sortIntoCells() {
        for (std::size_t i = drawing_.pieces.size(); i-- > 0;) {
            const Piece& piece = drawing_.pieces[i];
            pieces_.add(i, piece.centre, std::hypot(piece.length, piece.width) / 2.0);
        }
        const CardLayout& l = drawing_.layout;
        for (std::size_t i = 0; i < markers_.size(); ++i)
            printed_.add(i, markers_[i].centre, l.markerSize / 2.0 + drawing_.inkGrowth);
        for (std::size_t i = 0; i < slanted_.size(); ++i)
            printed_.add(markers_.size() + i, slanted_[i].centre, 1.5 * slanted_[i].half);
        for (std::size_t i = 0; i < l.patches.size(); ++i)
            printed_.add(markers_.size() + slanted_.size() + i, l.patches[i].centre,
                         l.patchSize / 2.0);
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

    /// Whether a dark module of the serial's code lies there: libqrencode's answer, drawn without
    /// the program's own drawing.
    [[nodiscard]] bool onCode(PointOnCard p) const {
        const CardRect& place = drawing_.layout.serialCode;
        if (!code_ || p.x < place.x || p.y < place.y || p.x >= place.x + place.width ||
            p.y >= place.y + place.height)
            return false;
        const int x = static_cast<int>((p.x - place.x) / place.width * code_->width);
        const int y = static_cast<int>((p.y - place.y) / place.height * code_->width);
        return (code_->data[y * code_->width + x] & 1) != 0;
    }

    [[nodiscard]] int printedAt(PointOnCard p) const {
        const CardLayout& l = drawing_.layout;
        if (onCode(p))
            return 2; // ink
        for (std::size_t i : printed_.at(p)) {
            if (i < markers_.size()) {
                if (Square{markers_[i].centre, l.markerSize / 2.0 + drawing_.inkGrowth}.holds(p))
                    return markerAt(markers_[i], p);
            } else if ((i -= markers_.size()) < slanted_.size()) {
                if (slanted_[i].holds(p))
                    return 2;
            } else if (i -= slanted_.size();
                       Square{l.patches[i].centre, l.patchSize / 2.0}.holds(p)) {
                return static_cast<int>(4 + i);
            }
        }
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

    std::unique_ptr<QRcode, void (*)(QRcode*)> code_{nullptr, QRcode_free};
    const Drawing& drawing_;
    Cells pieces_, printed_;
    cv::Vec3d camera_;
    std::vector<cv::Vec3d> palette_;
    std::vector<Square> slanted_;
    std::vector<Marker> markers_;
    int modules_ = 8;
};

} // namespace swarfbook::test
