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
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

// Writes what the network shows in photos, what is known of each contact of two parts before
// ContactTrust judges it, and of each piece before PieceTrust does, one JSON document a photo: for
// models/make/contacts.py and models/make/trust.py, which fit those judgements.
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

/// The outer outlines of all parts that touch another one, by label, through pixels' centres.
json partsOf(const cv::Mat& labels, const std::vector<PartContact>& contacts) {
    std::set<int> touching;
    for (const PartContact& one : contacts)
        touching.insert({one.first, one.second});
    std::map<int, cv::Rect> boxes;
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x)
            if (const int label = labels.at<int>(y, x); touching.count(label) > 0) {
                const auto [at, isNew] = boxes.try_emplace(label, x, y, 1, 1);
                at->second |= cv::Rect(x, y, 1, 1);
            }
    json parts = json::object();
    for (const auto& [label, box] : boxes) {
        std::vector<std::vector<cv::Point>> outlines;
        cv::findContours(labels(box) == label, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_SIMPLE,
                         box.tl());
        for (const auto& outline : outlines) {
            json points = json::array();
            for (const cv::Point& p : outline)
                points.push_back({p.x, p.y});
            parts[std::to_string(label)].push_back(std::move(points));
        }
    }
    return parts;
}

json contactsJson(const std::vector<PartContact>& contacts) {
    json all = json::array();
    for (const PartContact& one : contacts)
        all.push_back({{"parts", {one.first, one.second}}, {"features", one.features}});
    return all;
}

json candidatesOf(const JudgedWindow& window, const ContactTrust& contacts) {
    const auto pieces = findPieces(window.maps, window.crop, contacts);
    const auto features = featuresOf(window, pieces);
    json all = json::array();
    for (std::size_t i = 0; i < pieces.size(); ++i)
        all.push_back(candidateJson(
            pieces[i], particleFromOutline(window.photo, window.crop, pieces[i], SizeCorrection{}),
            features[i]));
    return all;
}

/// What pieces are found by. Without a trust in contacts only the contacts are written.
struct Finder {
    std::vector<CardLayout> layouts;
    PieceNetwork network;
    std::optional<ContactTrust> contacts;
};

void addContacts(json& document, const PieceMaps& maps, const WindowCrop& crop) {
    const cv::Mat labels = labelledParts(maps, crop);
    const auto contacts = contactsOf(labels, maps, crop.pxPerMm);
    document["contacts"] = contactsJson(contacts);
    document["parts"] = partsOf(labels, contacts);
    for (const auto feature : contactFeatureNames())
        document["contact_feature_names"].push_back(std::string(feature));
}

void writeCandidates(const Task& task, const Finder& finder, const std::filesystem::path& folder) {
    const std::string name = task.file.stem().string();
    const auto bytes = readPhotoFile(task.file);
    const auto photo = decodePhoto(bytes.value(), name);
    const auto found = calibratePhoto(photo.value(), finder.layouts, task.measuredBar);
    if (!found) {
        std::cerr << name << ": " << found.error().detail << '\n';
        return;
    }
    const bool onWhiteCard = task.place == Place::pad || task.place == Place::strained;
    const CalibratedPhoto calibrated = onWhiteCard ? *found : underFrame(*found);
    const auto window = prepareWindow(calibrated, onWhiteCard);
    if (!window) {
        std::cerr << name << ": " << window.error().detail << '\n';
        return;
    }
    const WindowCrop& crop = window->crop;
    const PieceMaps maps = finder.network.judge(calibrated, crop);
    const double noise = surfaceNoise(crop);
    json document;
    if (finder.contacts)
        document["candidates"] = candidatesOf({calibrated, crop, maps, noise}, *finder.contacts);
    else
        addContacts(document, maps, crop);
    document["name"] = name;
    document["origin_px"] = {crop.origin.x, crop.origin.y};
    document["px_per_mm"] = crop.pxPerMm;
    document["edge_px"] = calibrated.sharpness.edgeWidth.value();
    document["seen_from_mm"] = seenFromOf(calibrated.sharpness, calibrated.trueScale()).value();
    document["surface_noise"] = noise;
    document["grid"] = gridOf(calibrated);
    for (const auto feature : featureNames())
        document["feature_names"].push_back(std::string(feature));
    std::ofstream(folder / (name + ".json")) << document.dump() << '\n';
}

} // namespace

int main(int argc, char** argv) {
    try {
        const std::vector<std::string> words(argv + 1, argv + argc);
        if (words.size() < 4)
            throw UsageError("Usage: swarfbook_candidates NETWORK.onnx CONTACT-TRUST.json FOLDER "
                             "PLACE:[BAR:]PHOTO... Write - for CONTACT-TRUST.json to get the "
                             "contacts that it is fitted to.");
        Finder finder{loadAssessData().layouts, PieceNetwork::load(words[0]), std::nullopt};
        if (words[1] != "-")
            finder.contacts = ContactTrust::load(words[1]);
        const std::filesystem::path folder = words[2];
        std::filesystem::create_directories(folder);
        for (std::size_t i = 3; i < words.size(); ++i)
            writeCandidates(taskOf(words[i]), finder, folder);
        return 0;
    } catch (const std::exception& wrong) {
        std::cerr << wrong.what() << '\n';
        return 1;
    }
}
