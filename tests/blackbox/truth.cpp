// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "blackbox/truth.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>

namespace swarfbook::test {
namespace {

using nlohmann::json;

TruePiece pieceOf(const json& written) {
    TruePiece p;
    p.at = {written.at("x_mm"), written.at("y_mm")};
    p.maxFeret = written.at("max_feret_mm");
    p.id = written.at("id");
    p.thread = written.value("material", "") == "fibre";
    p.usable = !written.at("touching_window_edge").get<bool>() &&
               written.value("visible_fraction", 1.0) >= 0.5 && !written.value("on_magnet", false);
    p.members = written.value("members", std::vector<int>{});
    return p;
}

void readCamera(Truth& t, const json& document) {
    const json& c = document.at("camera");
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
            t.worldFromCamera(i, j) = c.at("R_cam_to_world")
                                          .at(static_cast<std::size_t>(i))
                                          .at(static_cast<std::size_t>(j));
    const auto& place = c.at("position_mm");
    t.camera = {place.at(0), place.at(1), place.at(2)};
    t.offset = {c.at("origin_offset_mm").at(0), c.at("origin_offset_mm").at(1)};
    t.centre = {c.at("centre_px").at(0), c.at("centre_px").at(1)};
    t.focal = c.at("f_px");
    t.pxPerMm = t.focal / c.at("distance_mm").get<double>();
    t.planeZ = document.at("card_plane_z_mm");
    t.k1 = document.at("distortion").at("k1");
    t.k2 = document.at("distortion").at("k2");
}

} // namespace

PointInPhoto Truth::photoFromCard(PointOnCard p) const {
    const cv::Vec3d world(p.x - offset.x, -(p.y - offset.y), planeZ);
    const cv::Vec3d q = worldFromCamera.t() * (world - camera);
    const double x = q[0] / -q[2];
    const double y = -q[1] / -q[2];
    const double r2 = x * x + y * y;
    const double s = 1.0 + k1 * r2 + k2 * r2 * r2;
    return {centre.x + focal * x * s, centre.y + focal * y * s};
}

bool Truth::isMirrored(PointOnCard p) const {
    const PointInPhoto at = photoFromCard(p);
    return std::any_of(mirrored.begin(), mirrored.end(), [&](const Blind& b) {
        return std::hypot(at.u - b.at.u, at.v - b.at.v) < b.radius;
    });
}

Truth readTruth(const std::filesystem::path& file) {
    std::ifstream in(file);
    const json document = json::parse(in);
    Truth t;
    t.name = document.at("name");
    t.layout = document.at("layout");
    t.place = document.at("place");
    t.printScale = document.at("print_scale");
    t.hasMagnet = !document.at("magnet").is_null();
    for (const auto& defect : document.at("defects"))
        t.defects.push_back(defect.is_string() ? defect.get<std::string>() : "");
    for (const auto& p : document.at("particles"))
        t.pieces.push_back(pieceOf(p));
    for (const auto& c : document.at("clusters"))
        if (c.at("members").size() > 1)
            t.clusters.push_back(pieceOf(c));
    for (const auto& c : document.at("confounders"))
        if (c.at("kind") == "gasket") {
            TruePiece crumb;
            crumb.at = {c.at("x_mm"), c.at("y_mm")};
            crumb.maxFeret = c.at("max_feret_mm");
            t.crumbs.push_back(crumb);
        }
    for (const auto& m : document.value("left_out_px", json::array()))
        t.mirrored.push_back({{m.at("u"), m.at("v")}, m.at("r")});
    const json& w = document.at("window_mm");
    t.windowX = w.at("x");
    t.windowY = w.at("y");
    t.windowWidth = w.at("w");
    t.windowHeight = w.at("h");
    readCamera(t, document);
    return t;
}

} // namespace swarfbook::test
