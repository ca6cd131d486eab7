// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measured_pan.h"
#include "assess/measurement_json.h"

#include <catch2/catch.hpp>

#include <limits>
#include <set>
#include <utility>
#include <vector>

using namespace swarfbook;
using nlohmann::json;
using nlohmann::ordered_json;
using swarfbook::test::measuredPan;
using swarfbook::test::sliver;

namespace {

std::set<std::string> keysOf(const ordered_json& object) {
    std::set<std::string> keys;
    for (const auto& item : object.items())
        keys.insert(item.key());
    return keys;
}

} // namespace

// Source of the next two cases: the project's own written format, "swarfbook measurement 2": names
// of every field that a reader may count on. New fields may be added; none of these may be removed
// or change its meaning.
TEST_CASE("the measurement document has every field of its format about the photo and the card") {
    const ordered_json d = toJson(measuredPan());
    CHECK(d.begin().key() == "format");
    CHECK(d["format"] == "swarfbook measurement 2");
    CHECK(keysOf(d) ==
          std::set<std::string>{"format",       "photo",          "place",        "refusal",
                                "sample",       "card",           "sharpness",    "size_floor_mm",
                                "seen_from_mm", "window",         "shown_only",   "particles",
                                "counts",       "size_certainty", "code",         "magnet",
                                "blank",        "after_magnet",   "second_light", "cautions"});
    CHECK(d["cautions"] == ordered_json::array({"The card is bent."}));
    CHECK(d["photo"] ==
          ordered_json::parse(R"({"file": "pan.jpg", "sha256": ")" + std::string(64, 'a') + R"(",
        "width_px": 4000, "height_px": 3000, "orientation": 6, "taken": "2025-03-14T10:12:00"})"));
    CHECK(d["place"] == "pan");
    CHECK(d["refusal"].is_null());
    CHECK(d["card"] == ordered_json::parse(R"({"layout": "wide", "serial": null,
        "print_scale": 0.996, "print_scale_u": 0.0004, "print_scale_checked": true,
        "markers_used": 10, "residual_px": 0.21, "tilt_deg": 11.8, "px_per_mm": 19.4,
        "scale_u_percent": 0.08,
        "grid": [{"x_mm": 30.0, "y_mm": 25.0, "u_px": 701.2, "v_px": 498.8}]})"));
    CHECK(d["sharpness"] == ordered_json::parse(R"({"edge_width_px":2.1,"edge_width_mm":0.11,
        "over_window": [{"x_mm": 30.0, "y_mm": 25.0, "along_x_px": 2.1, "along_y_px": 2.4}]})"));
    CHECK(d["blank"] == ordered_json::parse(R"({"file": "pan-clean.jpg", "sha256": ")" +
                                            std::string(64, 'b') + R"(", "used": true,
        "why_not": null, "laid_by": "surface", "likeness": 0.83, "shift_mm": [1.2, -0.4],
        "turn_deg": 0.8, "covered_share": 0.97, "also_on_blank": 12})"));
}

TEST_CASE("the measurement document has every field of its format about the finding") {
    const ordered_json d = toJson(measuredPan());
    CHECK(d["size_certainty"] == ordered_json::parse(R"({"pieces": 40, "median_mm": 0.31,
        "median_interval_95": [0.27, 0.35], "geometric_sd": 1.6, "mean_off_95": 0.15,
        "volume_mean_off_95": 0.62, "needed_for_5_percent": 377})"));
    CHECK(d["size_floor_mm"] == 0.21);
    CHECK(d["seen_from_mm"] == 0.105);
    CHECK(d["window"] == ordered_json::parse(R"({"area_cm2": 117.0, "measured_cm2": 112.4,
        "cut_out": true,
        "left_out": [{"why": "glare", "outline_mm": [[50.1,40.2],[52.0,40.2],[51.0,43.0]]}]})"));
    CHECK(d["particles"] == ordered_json::parse(R"([{"id": 1, "x_mm": 61.2, "y_mm": 44.03,
        "max_feret_mm": 0.84, "max_feret_u_mm": 0.03, "max_feret_at_least_mm": null,
        "min_feret_mm": 0.51,
        "min_feret_u_mm": 0.03, "area_mm2": 0.31, "area_u_mm2": 0.02, "length_mm": 0.86,
        "size_class": "J", "type": "bright metal", "debris_probability": 0.64,
        "type_probability": 0.91, "glint": 3.4, "glint_at_least": false,
        "ferrous": null, "type_said": {"hand": null, "sweep": null, "two_lights": null,
        "photo": {"type": "bright metal", "probability": 0.91}}, "at_edge": false, "may_be_several": false,
        "outline_mm": [[60.9,43.8],[61.5,43.9],[61.1235,44.3]], "below_floor": false}])"));
    CHECK(d["counts"][0] == ordered_json::parse(R"({"size_class": "J", "from_um": 600.0,
        "to_um": 1000.0, "count": 4, "weighted": 4.1, "per_100_cm2": 3.6,
        "interval_95": [1.0, 9.2], "by_type": {"bright metal": 3, "lining": 1},
        "complete": true})"));
    CHECK(d["counts"][1]["to_um"].is_null());
    CHECK(d["code"] == "A(J7/N00)");
    CHECK(d["magnet"].is_null());
}

TEST_CASE("a refused photo has its reason and advice and no particles") {
    Measurement m = measuredPan();
    m.refusal = Refusal{RefusalReason::blurred, "The card's edges are 9 px wide.",
                        "Hold the phone still and tap on the card to focus."};
    const ordered_json d = toJson(m);
    CHECK(keysOf(d) == std::set<std::string>{"format", "photo", "place", "refusal"});
    CHECK(d["refusal"]["reason"] == "blurred");
    CHECK(d["refusal"]["detail"] == "The card's edges are 9 px wide.");
    const Measurement back = measurementFromJson(d);
    REQUIRE(back.refusal);
    CHECK(back.refusal->reason == RefusalReason::blurred);
    CHECK(back.refusal->advice == m.refusal->advice);
    CHECK_FALSE(back.debris);
}

TEST_CASE("a magnet's finding is written with its coat and slivers") {
    Measurement m = measuredPan();
    m.place = Place::magnet;
    MagnetFinding magnet;
    magnet.shape = MagnetShape::ring;
    magnet.height = MagnetHeight{{Millimetres(6.0), Millimetres(0.5)}, HeightFrom::size};
    magnet.size = {Millimetres(30.1), Millimetres(14.2)};
    magnet.coveredShare = {Share(0.42), Share(0.03)};
    magnet.overhangMean = Millimetres(0.3);
    magnet.overhangP95 = Millimetres(0.9);
    magnet.overhangMax = Millimetres(1.4);
    magnet.overhangUncertainty = Millimetres(0.2);
    magnet.slivers = {sliver()};
    magnet.slivers[0].ferrous = Ferrous::yes;
    magnet.outlines = {{{1, 1}, {5, 1}, {3, 5}}};
    m.magnet = magnet;
    ordered_json written = toJson(m)["magnet"];
    REQUIRE(written["slivers"].size() == 1);
    CHECK(written["slivers"][0]["ferrous"] == true);
    written.erase("slivers");
    CHECK(written == ordered_json::parse(R"({"shape": "ring", "size_mm": [30.1, 14.2],
        "covered_share": 0.42, "covered_share_u": 0.03, "overhang_mean_mm": 0.3,
        "overhang_p95_mm": 0.9, "overhang_max_mm": 1.4, "overhang_u_mm": 0.2, "outline_lost": false, "slivers_told": true,
        "height_above_card": {"mm": 6.0, "u_mm": 0.5, "from": "size"},
        "outlines_mm": [[[1.0,1.0],[5.0,1.0],[3.0,5.0]]]})"));
}

TEST_CASE("a document read back and written again is the same document") {
    Measurement m = measuredPan();
    m.debris->onWhiteCard = true;
    m.debris->particles.push_back(sliver());
    m.debris->particles[1].ferrous = Ferrous::no;
    m.debris->particles[1].sizeClass.clear();
    m.debris->particles[1].atEdge = true;
    m.place = Place::magnet;
    m.magnet = MagnetFinding{};
    m.magnet->height = MagnetHeight{{Millimetres(5.5), Millimetres(1.5)}, HeightFrom::hole};
    m.magnet->slivers = {sliver()};
    m.magnet->slivers[0].leastSize = Millimetres(0.6);
    m.magnet->overhangUncertainty = Millimetres(0.3);
    const std::string written = toJson(m).dump();
    const Measurement back = measurementFromJson(json::parse(written));
    CHECK(toJson(back).dump() == written);
    CHECK(back.magnet->slivers.at(0).leastSize->value() == 0.6);
    CHECK(back.magnet->height->from == HeightFrom::hole);
    CHECK(back.magnet->overhangUncertainty->value() == 0.3);
    CHECK(back.debris->onWhiteCard);
    CHECK(back.debris->counts[1].to.value() == std::numeric_limits<double>::infinity());
    CHECK_FALSE(back.debris->counts[1].complete);
}

TEST_CASE("pieces shown, not counted, come with a reason and advice, and are read back so") {
    Measurement m = measuredPan();
    m.debris->shownOnly = ShownOnly{"Too few are found.", "Spread the debris."};
    m.debris->counts.clear();
    const auto document = toJson(m);
    CHECK(document.at("shown_only").at("why") == "Too few are found.");
    CHECK(document.at("shown_only").at("advice") == "Spread the debris.");
    CHECK(document.at("counts").empty());
    CHECK_FALSE(document.at("particles").empty());
    const Measurement again = measurementFromJson(document);
    REQUIRE(again.debris->shownOnly);
    CHECK(again.debris->shownOnly->advice == "Spread the debris.");
    m.debris->shownOnly.reset();
    CHECK(toJson(m).at("shown_only").is_null());
}

TEST_CASE("a document of a program without doubtful pieces counts every piece as debris") {
    auto older = json::parse(toJson(measuredPan()).dump());
    REQUIRE(older["particles"][0].erase("debris_probability") == 1);
    const Measurement back = measurementFromJson(older);
    CHECK(back.debris->particles.at(0).debrisProbability == 1.0);
    CHECK_FALSE(back.debris->particles.at(0).mayBeNone());
}

TEST_CASE("a file name that is not UTF-8 does not spoil the document") {
    Measurement m = measuredPan();
    m.photo.file = "pan\xff.jpg";
    CHECK(toJson(m)["photo"]["file"] == "pan\xEF\xBF\xBD.jpg");
    CHECK_NOTHROW(toJson(m).dump());
}

TEST_CASE("numbers that are not finite are never written") {
    Measurement m = measuredPan();
    m.debris->particles[0].glint = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(toJson(m), std::logic_error);
    m = measuredPan();
    m.debris.reset();
    CHECK_THROWS_AS(toJson(m), std::logic_error);
}

TEST_CASE("a document with a missing or wrong field is refused, and the field is named") {
    const json good = toJson(measuredPan());
    const auto complaintOf = [](const json& document) -> std::string {
        try {
            measurementFromJson(document);
        } catch (const std::invalid_argument& wrong) {
            return wrong.what();
        }
        return "";
    };
    json bad = good;
    bad["format"] = "swarfbook measurement 9";
    CHECK_THAT(complaintOf(bad), Catch::Contains("swarfbook measurement 9"));
    bad = good;
    bad["particles"][0].erase("max_feret_mm");
    CHECK_THAT(complaintOf(bad), Catch::Contains("max_feret_mm"));
    bad = good;
    bad["particles"][0]["type"] = "shiny";
    CHECK_THAT(complaintOf(bad), Catch::Contains("shiny"));
    bad = good;
    bad["card"] = nullptr;
    CHECK_FALSE(complaintOf(bad).empty());
    CHECK_FALSE(complaintOf(json::array()).empty());
    CHECK_FALSE(complaintOf(json("text")).empty());
}

TEST_CASE("a mapping read back is the same to the last bit") {
    PlaneMapping mapping;
    mapping.h = {1.0 / 3, 2e-17, -3, 4, 5, 6, 7e-5, 8, 1};
    mapping.focal = 3100.123456789;
    mapping.centre = {1999.5, 1499.5};
    mapping.k1 = -0.0123456789;
    mapping.k2 = 1e-3;
    const PlaneMapping back = mappingFromJson(json::parse(toJson(mapping).dump()));
    CHECK(back.h == mapping.h);
    CHECK(back.focal == mapping.focal);
    CHECK(back.centre == mapping.centre);
    CHECK(back.k1 == mapping.k1);
    CHECK(back.k2 == mapping.k2);
    CHECK_THROWS_AS(mappingFromJson(json{{"h", {1, 2}}}), std::invalid_argument);
}

TEST_CASE("numbers that no photo gives are refused when a document is read") {
    const std::vector<std::pair<std::string, ordered_json>> wrong{
        {"/card/px_per_mm", -1.0},
        {"/card/layout", "../close"},
        {"/card/markers_used", 1e300},
        {"/photo/width_px", 4e9},
        {"/photo/height_px", -2},
        {"/photo/orientation", 1.5},
        {"/sharpness/edge_width_px", -0.1},
        {"/size_floor_mm", 1e13},
        {"/window/measured_cm2", -24.0},
        {"/particles/0/max_feret_mm", -1.0},
        {"/particles/0/type_probability", 1.1},
        {"/particles/0/debris_probability", -0.1},
        {"/particles/0/x_mm", -1e200},
        {"/particles/0/outline_mm/0/1", 1e200},
        {"/counts/0/count", -5},
        {"/counts/0/count", 1e10},
        {"/counts/0/weighted", -1.0},
        {"/counts/0/interval_95/1", -1.0},
        {"/counts/0/by_type/lining", 0.5},
        {"/blank/shift_mm/0", 1e200},
        {"/size_certainty/needed_for_5_percent", 1e12}};
    REQUIRE_NOTHROW(measurementFromJson(nlohmann::json(toJson(measuredPan()))));
    for (const auto& [where, value] : wrong) {
        CAPTURE(where);
        nlohmann::json document = toJson(measuredPan());
        const nlohmann::json::json_pointer at(where);
        REQUIRE(document.contains(at)); // otherwise the place is not one of the format
        document[at] = value;
        CHECK_THROWS_AS(measurementFromJson(document), std::invalid_argument);
    }
}
