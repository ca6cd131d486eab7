// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_magnet.h"

#include "magnet/drawn_fuzz.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;

namespace drawn {
namespace {

using std::numbers::pi;
constexpr double whiteLight = 0.7; // linear

unsigned char codeOf(double linear) { // IEC 61966-2-1
    const double s =
        linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
    return static_cast<unsigned char>(std::clamp(std::lround(255.0 * s), 0L, 255L));
}

cv::Scalar grey(double shareOfWhite) {
    return cv::Scalar::all(codeOf(whiteLight * shareOfWhite));
}

/// Pinhole camera over the card: world x right, y down the card, z up.
class Pinhole {
  public:
    explicit Pinhole(const Camera& c) : camera_(c) {
        focal_ = 0.6 * std::hypot(c.size.width, c.size.height);
        const double t = c.tiltDegrees * pi / 180.0;
        // Right-handed with z away from the camera: (x, y, -z) turned about x by the tilt.
        rotation_ = cv::Matx33d(1, 0, 0, 0, std::cos(t), std::sin(t), 0, -std::sin(t), std::cos(t));
    }
    [[nodiscard]] cv::Point2d seen(cv::Point3d p) const {
        const cv::Vec3d q =
            rotation_ * cv::Vec3d(p.x - camera_.foot.x, p.y - camera_.foot.y, camera_.height - p.z);
        return {centre().x + focal_ * q[0] / q[2], centre().y + focal_ * q[1] / q[2]};
    }
    [[nodiscard]] PlaneMapping mapping() const {
        PlaneMapping m;
        const cv::Vec3d t = rotation_ * cv::Vec3d(-camera_.foot.x, -camera_.foot.y, camera_.height);
        m.h = cv::Matx33d(rotation_(0, 0), rotation_(0, 1), t[0], rotation_(1, 0), rotation_(1, 1),
                          t[1], rotation_(2, 0), rotation_(2, 1), t[2]);
        m.focal = focal_;
        m.centre = centre();
        return m;
    }
    [[nodiscard]] cv::Point2d centre() const {
        return {(camera_.size.width - 1) / 2.0, (camera_.size.height - 1) / 2.0};
    }

  private:
    Camera camera_;
    double focal_ = 1.0;
    cv::Matx33d rotation_;
};

/// A strand as a thin triangle in any projection.
template <class Project>
void drawStrand(cv::Mat& image, const Strand& s, const Project& project, const cv::Scalar& colour) {
    constexpr double thick = 0.13; // mm at its foot
    const cv::Point2d from = project(s.from), to = project(s.to);
    const cv::Point2d unit = project(s.from + cv::Point3d(1.0, 0.0, 0.0)) - from;
    const cv::Point2d along = to - from;
    const double n = std::max(1e-6, cv::norm(along));
    const cv::Point2d side = cv::Point2d(-along.y, along.x) * (0.5 * thick * cv::norm(unit) / n);
    fill(image, {from - side, to, from + side}, colour);
}

void drawShadow(cv::Mat& image, const Magnet& m, const std::vector<Strand>& strands,
                const Pinhole& camera) {
    cv::Mat shade = cv::Mat::zeros(image.size(), CV_8U);
    for (const double z : {0.0, 0.25, 0.5, 0.75, 1.0}) {
        std::vector<cv::Point2d> polygon;
        for (const cv::Point2d& p : outline(m))
            polygon.push_back(camera.seen({p.x + z * m.shadow.x, p.y + z * m.shadow.y, 0.0}));
        fill(shade, polygon, cv::Scalar::all(255));
    }
    const double perHeight = 1.0 / m.faceHeight;
    for (const Strand& s : strands)
        drawStrand(
            shade, s,
            [&](cv::Point3d p) {
                return camera.seen(
                    {p.x + p.z * perHeight * m.shadow.x, p.y + p.z * perHeight * m.shadow.y, 0.0});
            },
            cv::Scalar::all(255));
    const double pxPerMm = cv::norm(camera.seen({53, 40, 0}) - camera.seen({52, 40, 0}));
    cv::GaussianBlur(shade, shade, {}, std::max(0.5, 0.4 * m.penumbra * pxPerMm));
    for (int y = 0; y < image.rows; ++y)
        for (int x = 0; x < image.cols; ++x)
            if (const double share = shade.at<unsigned char>(y, x) / 255.0; share > 0.0)
                image.at<cv::Vec3b>(y, x) =
                    cv::Vec3b::all(codeOf(whiteLight * (1.0 - share * (1.0 - m.umbra))));
}

void drawBody(cv::Mat& image, const Magnet& m, const Pinhole& camera) {
    const auto at = [&](const std::vector<cv::Point2d>& rim, double z) {
        std::vector<cv::Point2d> polygon;
        for (const cv::Point2d& p : rim)
            polygon.push_back(camera.seen({p.x, p.y, z}));
        return polygon;
    };
    for (double z = 0.0; z < m.faceHeight; z += 0.25)
        fill(image, at(outline(m), z), grey(0.6 * m.faceLight));
    fill(image, at(outline(m), m.faceHeight), grey(m.faceLight));
    if (m.hole <= 0.0)
        return;
    // Through the hole: its wall, then the paper that the wall leaves in sight.
    cv::Mat mask(image.size(), CV_8U, cv::Scalar::all(255));
    for (double z = 0.0; z < m.faceHeight + 0.1; z += 0.25) {
        cv::Mat one = cv::Mat::zeros(image.size(), CV_8U);
        fill(one, at(holeRim(m), std::min(z, m.faceHeight)), cv::Scalar::all(255));
        mask &= one;
    }
    fill(image, at(holeRim(m), m.faceHeight), grey(0.5 * m.faceLight));
    image.setTo(grey(0.85), mask >= 128);
}

CalibratedPhoto calibrated(const cv::Mat& bgr, const Pinhole& camera) {
    CalibratedPhoto photo;
    photo.bgr = bgr;
    photo.card.mapping = camera.mapping();
    photo.card.layout.window = {window.x, window.y, window.width, window.height};
    photo.card.layout.outer = {0.0, 0.0, 104.0, 80.0};
    photo.card.scale = photo.card.mapping.scaleAt({52.0, 40.0});
    photo.surface = photo.card.mapping;
    photo.sharpness.edgeWidth = Pixels(2.0);
    photo.sharpness.widestDirection = Pixels(2.0);
    photo.light.centre = {52.0, 40.0};
    photo.light.halfWidth = 32.0;
    photo.light.halfHeight = 22.0;
    for (auto& channel : photo.light.surface)
        channel[0] = std::log(whiteLight);
    return photo;
}

cv::Mat finished(const cv::Mat& sharp, unsigned seed) {
    cv::Mat image, noise(sharp.size(), CV_16SC3);
    cv::GaussianBlur(sharp, image, {}, 0.7);
    cv::RNG random(seed);
    random.fill(noise, cv::RNG::NORMAL, 0.0, 1.5);
    cv::add(image, noise, image, {}, CV_8UC3);
    return image;
}

double meanOverhang(const cv::Mat& fuzz, const Magnet& m) {
    // The furthest fuzz along the outward normal of every point of the outline.
    const std::vector<cv::Point2d> rim = outline(m);
    double sum = 0.0;
    for (std::size_t i = 0; i < rim.size(); ++i) {
        const cv::Point2d along =
            rim[(i + 1) % rim.size()] - rim[(i + rim.size() - 1) % rim.size()];
        const cv::Point2d out = cv::Point2d(along.y, -along.x) / cv::norm(along);
        double furthest = 0.0;
        for (double far = 0.02; far < Above::rim - 0.5; far += 0.02) {
            const cv::Point2d p = Above::at(rim[i] + far * out);
            if (fuzz.at<unsigned char>(cvRound(p.y), cvRound(p.x)) != 0)
                furthest = far;
        }
        sum += furthest;
    }
    return sum / static_cast<double>(rim.size());
}

std::vector<cv::Point2d> drawPieces(cv::Mat& image, const Magnet& magnet, const Pinhole& pinhole) {
    std::vector<cv::Point2d> centres;
    for (int i = 0; i < magnet.pieces; ++i) {
        const double angle = 2.0 * pi * (i + 0.3) / magnet.pieces;
        const double r = (magnet.hole / 2.0 + std::min(magnet.width, magnet.height) / 2.0) / 2.0;
        const cv::Point2d at = magnet.centre + r * cv::Point2d(std::cos(angle), std::sin(angle));
        const double z = magnet.faceHeight + 0.5, half = magnet.pieceSize / 2.0;
        fill(image,
             {pinhole.seen({at.x - half, at.y - 0.2, z}),
              pinhole.seen({at.x + half, at.y - 0.1, z}),
              pinhole.seen({at.x + half * 0.8, at.y + 0.2, z}),
              pinhole.seen({at.x - half * 0.9, at.y + 0.2, z})},
             grey(1.3));
        centres.push_back(at);
    }
    return centres;
}

} // namespace

CalibratedPhoto paper(const Camera& camera) {
    const cv::Mat white(camera.size, CV_8UC3, grey(1.0));
    return calibrated(finished(white, 1), Pinhole(camera));
}

Scene draw(const Magnet& magnet, const Camera& camera, unsigned seed) {
    const Pinhole pinhole(camera);
    const Fuzz grown = grow(magnet, seed);
    const std::vector<Strand>& strands = grown.strands;
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> shade(0.4, 2.0);
    cv::Mat image(camera.size, CV_8UC3, grey(1.0));
    drawShadow(image, magnet, strands, pinhole);
    drawBody(image, magnet, pinhole);
    for (const Strand& s : strands)
        drawStrand(
            image, s, [&](cv::Point3d p) { return pinhole.seen(p); },
            grey(magnet.fuzzLight * shade(random)));
    Scene scene;
    scene.pieces = drawPieces(image, magnet, pinhole);
    scene.photo = calibrated(finished(image, seed), pinhole);

    cv::Mat fuzz = Above::empty();
    for (const Strand& s : strands)
        drawStrand(
            fuzz, s,
            [](cv::Point3d p) {
                return Above::at({p.x, p.y});
            },
            cv::Scalar::all(255));
    fuzz = fuzz >= 128;
    cv::morphologyEx(fuzz, fuzz, cv::MORPH_CLOSE,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {13, 13}));
    scene.coveredShare =
        static_cast<double>(cv::countNonZero(fuzz & grown.body)) / cv::countNonZero(grown.body);
    scene.overhangMean = meanOverhang(fuzz, magnet);
    return scene;
}

} // namespace drawn
