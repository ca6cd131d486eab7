// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "base/errors.h"
#include "card/calibrated_photo.h"
#include "debris/candidate.h"
#include "debris/cut.h"
#include "debris/measure_debris.h"
#include "particles/shape.h"
#include "photo/decode.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

// Writes what the stages of measuring see in photos, for the study of the stages and for making the
// models anew (models/make): per photo one JSON document and pictures, the window and its surface
// among them. --uncut leaves outlines whole where the cut model would part them.
namespace {

using namespace swarfbook;
using nlohmann::json;

struct Task {
    std::filesystem::path file;
    Place place = Place::pad;
    std::optional<Millimetres> measuredBar;
};

/// "PLACE:PHOTO" or "PLACE:BAR:PHOTO", BAR in millimetres.
Task taskOf(const std::string& word) {
    Task task;
    const auto first = word.find(':');
    const auto last = word.rfind(':');
    if (first == std::string::npos)
        throw UsageError(fmt::format("{} names no place: write pad:{}.", word, word));
    task.place = placeFromName(word.substr(0, first));
    if (last != first)
        task.measuredBar = Millimetres(std::stod(word.substr(first + 1, last - first - 1)));
    task.file = word.substr(last + 1);
    return task;
}

json gridOf(const CalibratedPhoto& photo) {
    json grid = json::array();
    const CardRect& w = photo.card.layout.window;
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 5; ++i) {
            const PointOnCard p{w.x + w.width * i / 4.0, w.y + w.height * j / 4.0};
            const PointInPhoto seen = photo.surface.photoFromCard(p);
            grid.push_back(
                {p.x * photo.printScale.value, p.y * photo.printScale.value, seen.u, seen.v});
        }
    return grid;
}

json candidateJson(const Candidate& candidate, const Particle& raw, const Particle& corrected) {
    json outline = json::array();
    for (const cv::Point2d& p : candidate.outline)
        outline.push_back({std::round(100.0 * p.x) / 100.0, std::round(100.0 * p.y) / 100.0});
    return {{"outline_px", std::move(outline)},
            {"x_mm", raw.centre.x},
            {"y_mm", raw.centre.y},
            {"max_feret_mm", raw.maxFeret.value.value()},
            {"min_feret_mm", raw.minFeret.value.value()},
            {"area_mm2", raw.area.value.value()},
            {"corrected_feret_mm", corrected.maxFeret.value.value()},
            {"corrected_feret_u_mm", corrected.maxFeret.standardUncertainty.value()},
            {"certainty", candidate.certainty},
            {"may_be_several", candidate.mayBeSeveral}};
}

/// What plainly stands out at a place, before anything is known of it.
json placeJson(const cv::Rect& box, const CalibratedPhoto& photo, const WindowCrop& crop,
               const ContrastField& field) {
    double peak = 0.0;
    cv::minMaxLoc(field.contrast(box), nullptr, &peak);
    cv::Mat mask = field.contrast(box) > 0.5 * peak;
    std::vector<cv::Point> points, hull;
    cv::findNonZero(mask, points);
    std::vector<PointOnCard> outline;
    if (!points.empty())
        cv::convexHull(points, hull);
    for (const cv::Point p : hull)
        outline.push_back(photo.trueFromPhoto(crop.inPhoto(p + box.tl())));
    json out{{"box", {box.x, box.y, box.width, box.height}}};
    if (outline.size() >= 3) {
        const Shape shape = measureShape(outline);
        out["x_mm"] = shape.centroid.x;
        out["y_mm"] = shape.centroid.y;
        out["max_feret_mm"] = shape.maxFeret;
    }
    return out;
}

json stagesOf(const CalibratedPhoto& photo, const WindowCrop& crop, const DebrisModels& models,
              const std::string& mapFile) {
    const ContrastField field = contrastField(crop);
    const auto places = placesWorthALook(field);
    const PieceMap map = pieceMapOf(crop, field, models.pieces, photo.sharpness.edgeWidth);
    cv::imwrite(mapFile, map.piece);
    const auto candidates =
        candidatesOf(crop, field, map, {models.cuts, photo.sharpness.edgeWidth});
    const auto features = featuresOf(photo, crop, field, candidates);
    const auto opinions = models.looks.judgeAll(features);
    const CastShadows cast = castShadowsOf(field, candidates, photo.sharpness.edgeWidth.value());
    json document;
    document["places"] = json::array();
    for (const cv::Rect& box : places)
        document["places"].push_back(placeJson(box, photo, crop, field));
    document["candidates"] = json::array();
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const Particle raw = particleFromOutline(photo, crop, candidates[i], {});
        const Particle corrected = particleFromOutline(photo, crop, candidates[i],
                                                       models.looks.sizeCorrection(features[i]));
        json one = candidateJson(candidates[i], raw, corrected);
        one["debris"] = opinions[i].debris;
        one["features"] = features[i];
        one["cuts"] = json::array();
        const Candidate& c = candidates[i];
        for (const Cut& cut : likelyCuts({c.outline, c.box, c.mask},
                                         {field, map, cast, photo.sharpness.edgeWidth.value()}))
            one["cuts"].push_back({{"from", cut.from}, {"to", cut.to}, {"features", cut.features}});
        document["candidates"].push_back(std::move(one));
    }
    return document;
}

void writeStages(const Task& task, const AssessData& data, const DebrisModels& models,
                 const std::filesystem::path& folder) {
    const std::string name = task.file.stem().string();
    const auto bytes = readPhotoFile(task.file);
    const auto photo = decodePhoto(bytes.value(), name);
    const auto found = calibratePhoto(photo.value(), data.layouts, task.measuredBar);
    if (!found) {
        std::cerr << name << ": " << found.error().detail << '\n';
        return;
    }
    const bool isPad = task.place == Place::pad || task.place == Place::strained;
    const CalibratedPhoto calibrated = isPad ? *found : underFrame(*found);
    const auto window = prepareWindow(calibrated, isPad);
    if (!window) {
        std::cerr << name << ": " << window.error().detail << '\n';
        return;
    }
    const WindowCrop& crop = window->crop;
    json document = stagesOf(calibrated, crop, models, (folder / (name + "-map.png")).string());
    document["name"] = name;
    document["origin_px"] = {crop.origin.x, crop.origin.y};
    document["px_per_mm"] = crop.pxPerMm;
    document["edge_px"] = calibrated.sharpness.edgeWidth.value();
    const SeeingConditions conditions = seeingConditions(calibrated, crop, contrastField(crop));
    document["seen_from_mm"] = conditions.seenFrom.value();
    document["surface_noise"] = conditions.surfaceNoise;
    document["size_floor_mm"] = models.detection.sizeFloor(conditions).value();
    document["debris_probability"] = models.looks.debrisThreshold();
    document["grid"] = gridOf(calibrated);
    for (const auto feature : cutFeatureNames())
        document["cut_feature_names"].push_back(std::string(feature));
    for (const auto feature : featureNames())
        document["feature_names"].push_back(std::string(feature));
    std::ofstream(folder / (name + ".json")) << document.dump() << '\n';
    cv::imwrite((folder / (name + "-window.png")).string(), crop.bgr);
    cv::imwrite((folder / (name + "-surface.png")).string(), contrastField(crop).background);
    cv::imwrite((folder / (name + "-inside.png")).string(), crop.inside);
}

} // namespace

int main(int argc, char** argv) {
    try {
        std::vector<std::string> words(argv + 1, argv + argc);
        const bool uncut = !words.empty() && words.front() == "--uncut";
        if (uncut)
            words.erase(words.begin());
        if (words.size() < 3)
            throw UsageError(
                "Usage: swarfbook_candidates [--uncut] MODELS FOLDER PLACE:[BAR:]PHOTO...");
        const AssessData data = loadAssessData();
        DebrisModels models = DebrisModels::load(words[0]);
        if (uncut)
            models.cuts = CutModel();
        const std::filesystem::path folder = words[1];
        std::filesystem::create_directories(folder);
        for (std::size_t i = 2; i < words.size(); ++i)
            writeStages(taskOf(words[i]), data, models, folder);
        return 0;
    } catch (const std::exception& wrong) {
        std::cerr << wrong.what() << '\n';
        return 1;
    }
}
