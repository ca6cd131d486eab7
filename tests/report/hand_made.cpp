// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"

#include "particles/count.h"
#include "particles/size_classes.h"
#include "report/annotated_photo.h"
#include "report/report_sample.h"
#include "report/report_words.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace swarfbook::test {

namespace {

constexpr double middleX = 52.0, middleY = 40.0; // nominal mm: the middle of the `close` card

PlaneMapping mappingOf(const HandMadeCamera& camera) {
    PlaneMapping mapping;
    mapping.focal = camera.size.width;
    mapping.centre = {camera.size.width / 2.0 - 0.5, camera.size.height / 2.0 - 0.5};
    mapping.k1 = camera.k1;
    const double s = camera.pxPerMm / mapping.focal;
    mapping.h = {
        s, 0.0, -s * middleX, 0.0, s, -s * middleY, camera.lean, 0.0, 1.0 - camera.lean * middleX};
    return mapping;
}

} // namespace

cv::Point2d photoFromTrueMm(const HandMadeCamera& camera, double x, double y) {
    const double dx = x / camera.printScale - middleX, dy = y / camera.printScale - middleY;
    const double depth = 1.0 + camera.lean * dx;
    const double u = dx * camera.pxPerMm / depth, v = dy * camera.pxPerMm / depth;
    const double r2 = (u * u + v * v) / std::pow(camera.size.width, 2);
    const double stretch = 1.0 + camera.k1 * r2;
    return {camera.size.width / 2.0 - 0.5 + u * stretch,
            camera.size.height / 2.0 - 0.5 + v * stretch};
}

cv::Mat greyPhoto(const HandMadeCamera& camera, int lightness) {
    return {camera.size, CV_8UC3, cv::Scalar::all(lightness)};
}

Particle roundParticle(int id, PointOnCard centre, double radius, ParticleType type, int corners) {
    Particle particle;
    particle.id = id;
    particle.centre = centre;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / corners;
        particle.outline.push_back(
            {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
    }
    particle.maxFeret = {Millimetres(2.0 * radius), Millimetres(0.02)};
    particle.minFeret = {Millimetres(2.0 * radius), Millimetres(0.02)};
    particle.area = {SquareMillimetres(std::numbers::pi * radius * radius),
                     SquareMillimetres(0.02)};
    particle.length = Millimetres(2.0 * radius);
    particle.sizeClass = sizeClassOf(Micrometres(2000.0 * radius));
    particle.type = type;
    particle.typeProbability = 0.9;
    particle.glint = 1.5;
    return particle;
}

Measurement emptyMeasurement(const HandMadeCamera& camera) {
    Measurement measurement;
    measurement.photo.file = "invented.jpg";
    measurement.photo.sha256 = std::string(64, '1');
    measurement.photo.widthPx = camera.size.width;
    measurement.photo.heightPx = camera.size.height;
    measurement.photo.taken = "2025-06-14T09:34:00";
    CardFacts card;
    card.layout = "close";
    card.serial = "C0007";
    card.printScale = {camera.printScale, 0.0008, true};
    card.markersUsed = 10;
    card.tilt = Degrees(9.0);
    card.scale = PixelsPerMillimetre(camera.pxPerMm / camera.printScale);
    card.scaleUPercent = 0.1;
    card.mapping = mappingOf(camera);
    for (int row = 0; row < 5; ++row)
        for (int column = 0; column < 5; ++column) {
            const PointOnCard at{(20.0 + 16.0 * column) * camera.printScale,
                                 (18.0 + 11.0 * row) * camera.printScale};
            const cv::Point2d seen = photoFromTrueMm(camera, at.x, at.y);
            card.grid.push_back({at, {seen.x, seen.y}});
        }
    measurement.card = card;
    measurement.edgeWidth = Pixels(2.0);
    measurement.edgeWidthOnCard = Millimetres(0.14);
    DebrisFinding debris;
    debris.onWhiteCard = true;
    debris.detectionLimit = Millimetres(0.2);
    debris.resolutionLimit = Millimetres(0.2);
    debris.windowArea = SquareCentimetres(28.16);
    debris.measuredArea = SquareCentimetres(28.16);
    measurement.debris = debris;
    return measurement;
}

void countParticles(Measurement& measurement) {
    DebrisFinding& debris = *measurement.debris;
    CountOptions options;
    options.onWhiteCard = debris.onWhiteCard;
    options.measuredArea = debris.measuredArea;
    options.detectionLimit = debris.detectionLimit;
    options.resolutionLimit = debris.resolutionLimit;
    debris.counts =
        countByClass(debris.particles, {Millimetres(64.64), Millimetres(44.44)}, options);
    debris.code = cleanlinessCode(debris.counts, options);
}

namespace {

/// A photo with a dark disc where each particle lies.
cv::Mat photoOf(const HandMadeCamera& camera, const Measurement& measurement) {
    cv::Mat photo = greyPhoto(camera, 225);
    for (const Particle& particle : measurement.debris->particles) {
        std::vector<cv::Point> corners;
        for (const PointOnCard& point : particle.outline)
            corners.emplace_back(photoFromTrueMm(camera, point.x, point.y));
        cv::fillPoly(photo, std::vector<std::vector<cv::Point>>{corners}, cv::Scalar(60, 70, 80));
    }
    return photo;
}

Measurement padMeasurement(const HandMadeCamera& camera, int pieces) {
    Measurement measurement = emptyMeasurement(camera);
    for (int i = 0; i < pieces; ++i)
        measurement.debris->particles.push_back(
            roundParticle(i + 1, {24.0 + 5.3 * (i % 11), 22.0 + 6.1 * (i / 11)},
                          1.4 / (1.0 + 0.3 * i), static_cast<ParticleType>(i % particleTypeCount)));
    LeftOut glare{"glare", {}};
    for (const auto& [x, y] : {std::pair{70.0, 52.0}, {80.0, 52.0}, {80.0, 60.0}, {70.0, 60.0}})
        glare.outline.push_back({x, y});
    measurement.debris->leftOut.push_back(glare);
    measurement.debris->measuredArea = SquareCentimetres(27.36);
    countParticles(measurement);
    return measurement;
}

Measurement magnetMeasurement(const HandMadeCamera& camera) {
    Measurement measurement = emptyMeasurement(camera);
    measurement.place = Place::magnet;
    measurement.photo.sha256 = std::string(64, '2');
    measurement.debris->particles.push_back(
        roundParticle(1, {26.0, 25.0}, 0.3, ParticleType::lining));
    countParticles(measurement);
    MagnetFinding magnet;
    magnet.shape = MagnetShape::disc;
    magnet.size = {Millimetres(24.0)};
    magnet.coveredShare = {Share(0.62), Share(0.04)};
    magnet.overhangMean = Millimetres(0.8);
    magnet.overhangP95 = Millimetres(1.4);
    magnet.overhangMax = Millimetres(2.1);
    magnet.overhangUncertainty = Millimetres(0.2);
    magnet.outlines.push_back(
        roundParticle(0, {52.0, 40.0}, 12.0, ParticleType::unidentified, 90).outline);
    magnet.slivers.push_back(roundParticle(1, {55.0, 42.0}, 0.7, ParticleType::brightMetal));
    measurement.magnet = magnet;
    return measurement;
}

Suggestion handMadeSuggestion() {
    Suggestion suggestion;
    suggestion.outcome = Recommendation::cleanAndRefit;
    suggestion.strongestReasons = {
        "Only fine debris and no symptom: 3 metal pieces above 1 mm were not felt as sharp.",
        "All five solenoids read within their band and alike."};
    suggestion.strongestContrary = "Yellow metal was seen, if only a few specks.";
    suggestion.wouldChange = "Any piece that is felt as sharp or shows a machined face.";
    suggestion.recheckAfter = Kilometres(5000.0);
    suggestion.notKnown = {"whether the bright metal is magnetic"};
    suggestion.cautions = {"Hot fluid burns: let it cool before the pan comes off."};
    suggestion.all = {{"No symptom was reported.", "no-symptom", 0.5, true},
                      {"A few specks of yellow metal.", "yellow-few", 0.4, false}};
    return suggestion;
}

ReportedTrendPoint scored(std::int64_t visit, const std::string& date, double km, double value) {
    WearScore score;
    score.value = value;
    score.low = 0.5 * value;
    score.high = 1.5 * value;
    score.since = Kilometres(20000.0);
    score.detectionLimit = Millimetres(0.2);
    score.place = Place::pad;
    score.method = "weighted pieces per 10,000 km on a scale that ends at 100";
    return {visit, date, km, score};
}

void addHistory(ReportModel& model, const HandMadeCamera& camera) {
    model.trend = {scored(1, "2022-05-02", 61000.0, 12.0), scored(4, "2025-06-14", 128400.0, 31.0)};
    model.trend.insert(model.trend.begin() + 1,
                       {2, "2023-08-20", 90000.0,
                        NoWearScore{"the distance since the last clean is not known",
                                    "Write down the odometer at every clean."}});
    model.wearScore = model.trend.back().score;
    model.trendSentence = "A trend needs four visits that can be compared; there are 2.";
    ReportedComparison both;
    both.beforeDate = "2022-05-02";
    both.nowDate = "2025-06-14";
    both.place = Place::pad;
    both.sentence = "2.1 times as many pieces per distance as before; more than chance.";
    both.compared = true;
    both.detectionLimit = Millimetres(0.2);
    both.changes = {{std::nullopt, 9, 21, 2.1, 1.2, 4.0, true},
                    {ParticleType::brightMetal, 0, 4, std::nullopt, 0.9,
                     std::numeric_limits<double>::infinity(), false},
                    {ParticleType::fibre, 0, 0, std::nullopt, 0.0,
                     std::numeric_limits<double>::infinity(), false}};
    both.pxPerMm = 12.0;
    const Measurement before = padMeasurement(camera, 9), now = padMeasurement(camera, 21);
    both.before = windowPicture(photoOf(camera, before), before, PixelsPerMillimetre(both.pxPerMm));
    both.now = windowPicture(photoOf(camera, now), now, PixelsPerMillimetre(both.pxPerMm));
    model.comparison = both;
}

/// The six largest pieces of a white card without threads, as page one shows them.
std::vector<ReportedPiece> shownPieces(const HandMadeCamera& camera, const Measurement& pad) {
    const cv::Mat photo = photoOf(camera, pad);
    const CropOptions crop{.field = Millimetres(4.0), .outline = false, .ring = true, .bar = false};
    std::vector<ReportedPiece> pieces;
    for (const Particle& piece : pad.debris->particles)
        if (piece.type != ParticleType::fibre && pieces.size() < 6)
            pieces.push_back({piece, false, croppedPiece(photo, pad, piece, crop)});
    return pieces;
}

ReportedPieces piecesOf(const HandMadeCamera& camera) {
    ReportedPieces pieces;
    pieces.sentence = "The largest pieces found. The verdict does not rest on them.";
    pieces.count = 18; // of 21, every sixth is a thread
    pieces.now = shownPieces(camera, padMeasurement(camera, 21));
    pieces.beforeDate = "2022-05-02";
    pieces.before = shownPieces(camera, padMeasurement(camera, 9));
    pieces.field = Millimetres(4.0);
    return pieces;
}

} // namespace

ReportModel handMadeModel() {
    const HandMadeCamera camera;
    ReportModel model;
    model.programVersion = "9.9.9";
    model.job = {"Kestrel Lane Transmissions",
                 "DEMO-03",
                 "Demo 5",
                 "",
                 "",
                 4,
                 "2025-06-14",
                 128400.0,
                 20000.0,
                 "Shudders a little when cold",
                 "R. Example"};
    model.suggestion = handMadeSuggestion();
    model.verdict = verdictSentence(model.suggestion);
    model.nextCheck = nextCheckSentence(model.suggestion, model.job.odometerKm);
    const Measurement pad = padMeasurement(camera, 21), magnet = magnetMeasurement(camera);
    model.samples.push_back(reportedSample(photoOf(camera, pad), pad));
    model.samples.back().sampling = "whole filter rinsed";
    model.samples.push_back(reportedSample(photoOf(camera, magnet), magnet));
    for (ReportedSample& sample : model.samples)
        sample.programVersion = "9.9.9";
    ReportedSample refused;
    refused.place = Place::filter;
    refused.sha256 = std::string(64, '3');
    refused.refusal = Refusal{RefusalReason::blurred, "the card's edges are 14 px wide",
                              "Hold the phone still and take the photo again."};
    model.samples.push_back(refused);
    model.pieces = piecesOf(camera);
    addHistory(model, camera);
    model.observations = {
        {"solenoid", "solenoid A: 12.6 ohm at 80 C, 10.2 ohm at 20 C", "2025-06-14T10:12:00Z"},
        {"codes", "codes before: none stored", "2025-06-14T10:15:00Z"}};
    model.notInspected = {"converter drain"};
    return model;
}

} // namespace swarfbook::test
