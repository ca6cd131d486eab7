// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "base/errors.h"
#include "card/calibrated_photo.h"
#include "debris/candidate.h"
#include "debris/measure_debris.h"
#include "debris/piece_features.h"
#include "photo/decode.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

// Writes what the network shows in photos and what is known of each piece before PieceTrust judges
// it, one JSON document a photo: for models/make/trust.py, which fits that judgement.
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

json candidateJson(const Candidate& candidate, const Particle& raw, const Features& features) {
    json outline = json::array();
    for (const cv::Point2d& p : candidate.outline)
        outline.push_back({std::round(100.0 * p.x) / 100.0, std::round(100.0 * p.y) / 100.0});
    return {{"outline_px", std::move(outline)},
            {"x_mm", raw.centre.x},
            {"y_mm", raw.centre.y},
            {"max_feret_mm", raw.maxFeret.value.value()},
            {"min_feret_mm", raw.minFeret.value.value()},
            {"area_mm2", raw.area.value.value()},
            {"may_be_several", candidate.mayBeSeveral},
            {"features", features}};
}

json candidatesOf(const JudgedWindow& window) {
    const auto pieces = findPieces(window.maps, window.crop);
    const auto features = featuresOf(window, pieces);
    json all = json::array();
    for (std::size_t i = 0; i < pieces.size(); ++i)
        all.push_back(candidateJson(
            pieces[i], particleFromOutline(window.photo, window.crop, pieces[i], SizeCorrection{}),
            features[i]));
    return all;
}

void writeCandidates(const Task& task, const AssessData& data, const PieceNetwork& network,
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
    const PieceMaps maps = network.judge(calibrated, crop);
    json document;
    document["candidates"] = candidatesOf({calibrated, crop, maps});
    document["name"] = name;
    document["origin_px"] = {crop.origin.x, crop.origin.y};
    document["px_per_mm"] = crop.pxPerMm;
    document["edge_px"] = calibrated.sharpness.edgeWidth.value();
    document["seen_from_mm"] = seenFromOf(calibrated.sharpness, calibrated.trueScale()).value();
    document["surface_noise"] = surfaceNoise(crop);
    document["grid"] = gridOf(calibrated);
    for (const auto feature : featureNames())
        document["feature_names"].push_back(std::string(feature));
    std::ofstream(folder / (name + ".json")) << document.dump() << '\n';
}

} // namespace

int main(int argc, char** argv) {
    try {
        const std::vector<std::string> words(argv + 1, argv + argc);
        if (words.size() < 3)
            throw UsageError(
                "Usage: swarfbook_candidates NETWORK.onnx FOLDER PLACE:[BAR:]PHOTO...");
        const AssessData data = loadAssessData();
        const PieceNetwork network = PieceNetwork::load(words[0]);
        const std::filesystem::path folder = words[1];
        std::filesystem::create_directories(folder);
        for (std::size_t i = 2; i < words.size(); ++i)
            writeCandidates(taskOf(words[i]), data, network, folder);
        return 0;
    } catch (const std::exception& wrong) {
        std::cerr << wrong.what() << '\n';
        return 1;
    }
}
