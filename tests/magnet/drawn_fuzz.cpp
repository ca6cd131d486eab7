// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_fuzz.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using swarfbook::MagnetShape;

namespace drawn {
namespace {

using std::numbers::pi;

class Growth {
  public:
    Growth(const Magnet& m, unsigned seed) : magnet_(m), random_(seed) {
        body_ = Above::filled(outline(m));
        if (m.hole > 0.0)
            body_ &= ~Above::filled(holeRim(m));
        cv::distanceTransform(body_, depth_, cv::DIST_L2, cv::DIST_MASK_5);
        cv::Mat noise(body_.rows / 80, body_.cols / 80, CV_32F);
        for (float& v : cv::Mat_<float>(noise))
            v = static_cast<float>(uniform());
        cv::resize(noise, patches_, body_.size(), 0, 0, cv::INTER_CUBIC);
        std::vector<float> values;
        for (int y = 0; y < body_.rows; y += 4)
            for (int x = 0; x < body_.cols; x += 4)
                if (body_.at<unsigned char>(y, x) != 0)
                    values.push_back(wealthAt({x, y}));
        std::sort(values.begin(), values.end());
        const auto at =
            static_cast<std::size_t>((1.0 - m.cover) * static_cast<double>(values.size() - 1));
        limit_ = m.cover >= 1.0 ? -1e9F : values[at];
    }

    std::vector<Strand> strands() {
        std::vector<Strand> all;
        if (magnet_.cover <= 0.0)
            return all;
        constexpr double perMm2 = 60.0;
        const cv::Rect box = cv::boundingRect(body_);
        const double area = box.area() / (topScale * topScale);
        for (int i = 0; i < cvRound(area * perMm2); ++i) {
            // One number a statement: in one call every compiler has an order of its own.
            const int y = box.y + cvRound(uniform() * (box.height - 1));
            const int x = box.x + cvRound(uniform() * (box.width - 1));
            const cv::Point2d p = Above::mm(cv::Point(x, y));
            if (grows(p))
                all.push_back(onFace(p));
        }
        hangFrom(outline(magnet_), all);
        if (magnet_.hole > 0.0)
            hangFrom(holeRim(magnet_), all);
        std::shuffle(all.begin(), all.end(), random_);
        return all;
    }
    [[nodiscard]] const cv::Mat& body() const { return body_; }
    double uniform() { return std::uniform_real_distribution<double>(0.0, 1.0)(random_); }

  private:
    /// Fuzz gathers where the field is strongest: at the rims.
    [[nodiscard]] float wealthAt(cv::Point px) const {
        const double depth = depth_.at<float>(px) / topScale;
        return patches_.at<float>(px) + static_cast<float>(0.8 * std::exp(-depth / 1.2));
    }
    [[nodiscard]] bool grows(cv::Point2d p) const {
        const cv::Point2d at = Above::at(p);
        const cv::Point px(cvRound(at.x), cvRound(at.y));
        return body_.at<unsigned char>(px) != 0 && wealthAt(px) > limit_;
    }
    /// Outwards from the face's nearest rim.
    [[nodiscard]] cv::Point2d outwards(cv::Point2d p) const {
        const cv::Point2d at = Above::at(p);
        const int x = cvRound(at.x), y = cvRound(at.y), r = 6;
        const cv::Point2d g(depth_.at<float>(y, x + r) - depth_.at<float>(y, x - r),
                            depth_.at<float>(y + r, x) - depth_.at<float>(y - r, x));
        const double n = cv::norm(g);
        return n > 1e-6 ? -g / n : cv::Point2d(1.0, 0.0);
    }
    double length(cv::Point2d at) {
        const cv::Point2d d = at - magnet_.centre;
        const double longer = 1.0 + magnet_.lopsided * d.x / std::max(1e-6, cv::norm(d));
        return magnet_.strand * longer * std::exp(0.35 * normal() - 0.06);
    }
    double normal() { return std::normal_distribution<double>(0.0, 1.0)(random_); }

    Strand onFace(cv::Point2d p) {
        const cv::Point2d at = Above::at(p);
        const double depth = depth_.at<float>(cvRound(at.y), cvRound(at.x)) / topScale;
        // Field of a thick flat magnet near its edge (sheets of pole at two heights).
        const double h = magnet_.faceHeight;
        const double lean = std::log(std::hypot(depth, h) / std::max(depth, 0.05)) / pi;
        const cv::Point2d out = outwards(p) * lean;
        const double aside = 0.25 * normal(), along = 0.25 * normal();
        cv::Point3d way(out.x + along, out.y + aside, 1.0);
        way = way * (0.45 * length(p) / std::sqrt(way.dot(way)));
        const cv::Point3d from(p.x, p.y, h);
        return {from, from + way};
    }
    void hangFrom(const std::vector<cv::Point2d>& rim, std::vector<Strand>& all) {
        for (std::size_t i = 0; i < rim.size(); ++i) {
            const cv::Point2d next = rim[(i + 1) % rim.size()];
            const int count = std::max(1, cvRound(cv::norm(next - rim[i]) / 0.03));
            for (int k = 0; k < count; ++k) {
                const cv::Point2d p = rim[i] + (next - rim[i]) * uniform();
                const cv::Point2d out = outwards(p);
                if (!grows(p - 0.05 * out))
                    continue;
                const double up = 0.35 - 0.9 * uniform();
                const double aside = 0.2 * normal(), along = 0.2 * normal();
                cv::Point3d way(out.x + along, out.y + aside, up);
                way = way * (0.8 * length(p) / std::sqrt(way.dot(way)));
                const cv::Point3d from(p.x, p.y, magnet_.faceHeight * (1.0 - 0.3 * uniform()));
                all.push_back({from, from + way});
            }
        }
    }

    Magnet magnet_;
    std::mt19937 random_;
    cv::Mat body_, depth_, patches_;
    float limit_ = 0.0F;
};

} // namespace

void fill(cv::Mat& image, const std::vector<cv::Point2d>& polygon, const cv::Scalar& colour) {
    std::vector<cv::Point> fixed;
    for (const cv::Point2d& p : polygon)
        fixed.emplace_back(cvRound(p.x * 256.0), cvRound(p.y * 256.0));
    cv::fillPoly(image, std::vector<std::vector<cv::Point>>{fixed}, colour, cv::LINE_AA, 8);
}

std::vector<cv::Point2d> outline(const Magnet& m) {
    std::vector<cv::Point2d> points;
    const double c = std::cos(m.turn), s = std::sin(m.turn);
    const auto add = [&](double x, double y) {
        points.emplace_back(m.centre.x + x * c - y * s, m.centre.y + x * s + y * c);
    };
    const double w = m.width / 2.0, h = m.height / 2.0;
    if (m.shape != MagnetShape::block) {
        for (int i = 0; i < 720; ++i)
            add(w * std::cos(i * pi / 360), w * std::sin(i * pi / 360));
        return points;
    }
    for (double x = -w; x < w; x += 0.2)
        add(x, -h);
    for (double y = -h; y < h; y += 0.2)
        add(w, y);
    for (double x = w; x > -w; x -= 0.2)
        add(x, h);
    for (double y = h; y > -h; y -= 0.2)
        add(-w, y);
    return points;
}

std::vector<cv::Point2d> holeRim(const Magnet& m) {
    std::vector<cv::Point2d> points;
    for (int i = 0; i < 360; ++i)
        points.emplace_back(m.centre.x + m.hole / 2 * std::cos(i * pi / 180),
                            m.centre.y + m.hole / 2 * std::sin(i * pi / 180));
    return points;
}

Fuzz grow(const Magnet& magnet, unsigned seed) {
    Growth growth(magnet, seed);
    Fuzz fuzz;
    fuzz.strands = growth.strands();
    fuzz.body = growth.body();
    return fuzz;
}

} // namespace drawn
