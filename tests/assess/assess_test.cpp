// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "base/errors.h"
#include "base/sha256.h"
#include "cli/run_program.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

using namespace swarfbook;
using swarfbook::test::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

/// Sets SWARFBOOK_DATA and restores it.
class DataVariable {
  public:
    explicit DataVariable(const std::optional<fs::path>& value) {
        if (const char* before = std::getenv("SWARFBOOK_DATA"))
            before_ = before;
        set(value ? std::optional<std::string>(value->string()) : std::nullopt);
    }
    ~DataVariable() { set(before_); }
    DataVariable(const DataVariable&) = delete;
    DataVariable& operator=(const DataVariable&) = delete;

  private:
    static void set(const std::optional<std::string>& value) {
        if (value)
            setenv("SWARFBOOK_DATA", value->c_str(), 1);
        else
            unsetenv("SWARFBOOK_DATA");
    }
    std::optional<std::string> before_;
};

const fs::path demo = fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images/history-1.jpg";

std::string bytesOf(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

fs::path written(const TemporaryFolder& folder, const std::string& name, const std::string& bytes) {
    const fs::path file = folder.path() / name;
    std::ofstream(file, std::ios::binary) << bytes;
    return file;
}

void checkRefused(const fs::path& file, RefusalReason reason) {
    INFO(file.string());
    const Measurement m = assessPhotoFile(file, loadAssessData(), {});
    REQUIRE(m.refusal);
    CHECK(reasonName(m.refusal->reason) == reasonName(reason));
    CHECK_FALSE(m.refusal->detail.empty());
    CHECK_FALSE(m.refusal->advice.empty());
    CHECK_FALSE(m.card);
    CHECK_FALSE(m.debris);
    CHECK_FALSE(m.magnet);
    CHECK(m.photo.file == file.filename().string());
    CHECK(toJson(m).at("refusal").at("reason") == std::string(reasonName(reason)));
}

Photo cardWithPieces(const std::string& layout, double distance) {
    test::Drawing drawing;
    drawing.layout = test::layoutNamed(layout);
    const CardRect& w = drawing.layout.window;
    for (int i = 0; i < 5; ++i)
        drawing.pieces.push_back({{w.x + w.width * (0.15 + 0.17 * i), w.y + 0.4 * w.height}, 1.5});
    test::Camera camera;
    camera.aim = {drawing.layout.outer.width / 2.0, drawing.layout.outer.height / 2.0};
    camera.distance = distance;
    return test::photograph(drawing, camera, {});
}

} // namespace

TEST_CASE("The data folder is the one named, else one that exists", "[assess]") {
    {
        const DataVariable named(fs::path("/somewhere/else"));
        CHECK(dataFolder() == fs::path("/somewhere/else"));
        CHECK_THROWS_AS(loadAssessData(), ToolError);
    }
    for (const std::optional<fs::path>& none :
         {std::optional<fs::path>(), std::optional<fs::path>("")}) {
        const DataVariable unset(none);
        CHECK(fs::exists(dataFolder() / "calibration/reference-card.json"));
        CHECK(fs::exists(dataFolder() / "models/piece-trust.json"));
        CHECK(loadAssessData().layouts.size() == 2);
    }
}

TEST_CASE("A missing model is the machine's failure, not the photo's", "[assess]") {
    AssessData data = loadAssessData();
    data.models = ModelsOnDemand("/nowhere/models");
    CHECK_THROWS_AS(assessPhotoFile(demo, data, {}), ToolError);
}

TEST_CASE("A file that is not a photo is refused, without an exception", "[assess]") {
    const TemporaryFolder folder;
    const std::string whole = bytesOf(demo);
    REQUIRE(whole.size() > 100000);
    checkRefused(folder.path() / "missing.jpg", RefusalReason::notAPhoto);
    checkRefused(folder.path(), RefusalReason::notAPhoto);
    checkRefused(written(folder, "empty.jpg", ""), RefusalReason::notAPhoto);
    checkRefused(written(folder, "letter.jpg", "Dear customer, the pan was full of swarf."),
                 RefusalReason::notAPhoto);
    checkRefused(written(folder, "cut.jpg", whole.substr(0, whole.size() / 3)),
                 RefusalReason::notAPhoto);
    // A PNG that declares 20000 x 20000 pixels (PNG specification, IHDR), and nothing after it.
    const std::string huge(
        "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x4e\x20\0\0\x4e\x20\x08\x02\0\0\0\x9e\x1d"
        "\x6c\x1b",
        33);
    const Measurement m = assessPhotoFile(written(folder, "huge.png", huge), loadAssessData(), {});
    REQUIRE(m.refusal);
    CHECK((m.refusal->reason == RefusalReason::tooLarge ||
           m.refusal->reason == RefusalReason::notAPhoto));
}

TEST_CASE("A photo without a card is refused for that", "[assess]") {
    Photo plain;
    plain.bgr = cv::Mat(1200, 1600, CV_8UC3, cv::Scalar(170, 180, 175));
    const Measurement m = assessPhoto(plain, loadAssessData(), {});
    REQUIRE(m.refusal);
    CHECK(m.refusal->reason == RefusalReason::noCard);
    CHECK_FALSE(m.debris);
}

TEST_CASE("The same bytes give the same document, to the last digit", "[assess]") {
    const AssessData data = loadAssessData();
    const TemporaryFolder folder;
    const fs::path copy = written(folder, demo.filename().string(), bytesOf(demo));
    const std::string first = toJson(assessPhotoFile(demo, data, {})).dump();
    const std::string again = toJson(assessPhotoFile(copy, data, {})).dump();
    CHECK(first == again);
    const auto document = nlohmann::json::parse(first);
    CHECK(document.at("refusal").is_null());
    const std::string bytes = bytesOf(demo);
    CHECK(document.at("photo").at("sha256") ==
          sha256Hex(std::as_bytes(std::span(bytes.data(), bytes.size()))));
}

TEST_CASE("The place decides between white card and frame, the user's word overrules it",
          "[assess]") {
    const AssessData data = loadAssessData();
    const Photo photo = cardWithPieces("close", 95.0);
    const auto onWhiteCard = [&](Place place, std::optional<bool> cutOut) {
        AssessOptions options;
        options.place = place;
        options.windowCutOut = cutOut;
        const Measurement m = assessPhoto(photo, data, options);
        REQUIRE(m.debris);
        CHECK(m.place == place);
        CHECK(m.debris->particles.size() == 5);
        return m.debris->onWhiteCard;
    };
    CHECK(onWhiteCard(Place::pad, std::nullopt));
    CHECK(onWhiteCard(Place::strained, std::nullopt));
    CHECK_FALSE(onWhiteCard(Place::pan, std::nullopt));
    CHECK_FALSE(onWhiteCard(Place::tray, std::nullopt));
    CHECK(onWhiteCard(Place::pan, false));
    CHECK_FALSE(onWhiteCard(Place::pad, true));
}

TEST_CASE("The document's grid lies where the camera saw the card", "[assess]") {
    test::Camera camera;
    const Measurement m =
        assessPhoto(cardWithPieces("close", camera.distance), loadAssessData(), {});
    REQUIRE(m.card);
    REQUIRE(m.card->grid.size() == 25);
    for (const GridPoint& g : m.card->grid) {
        const PointInPhoto truth = camera.mapping().photoFromCard(g.onCard);
        CHECK(g.inPhoto.u == Approx(truth.u).margin(0.5));
        CHECK(g.inPhoto.v == Approx(truth.v).margin(0.5));
    }
}

TEST_CASE("The measured bar and the serial reach the document", "[assess]") {
    AssessOptions options;
    options.measuredBar = Millimetres(79.2);
    options.serial = "C0042";
    const Measurement m = assessPhoto(cardWithPieces("close", 95.0), loadAssessData(), options);
    REQUIRE(m.card);
    CHECK(m.card->serial == "C0042");
    CHECK(m.card->printScale.checked);
    CHECK(m.card->printScale.value == Approx(0.99));
    REQUIRE(m.debris);
    REQUIRE(m.debris->particles.size() == 5);
    const Measurement asPrinted = assessPhoto(cardWithPieces("close", 95.0), loadAssessData(), {});
    REQUIRE(asPrinted.debris->particles.size() == 5);
    // Sizes are kept to 0.0001 mm.
    CHECK(m.debris->particles[2].maxFeret.value.value() ==
          Approx(0.99 * asPrinted.debris->particles[2].maxFeret.value.value()).margin(1e-4));
    options.measuredBar = Millimetres(40.0);
    CHECK_THROWS_AS(assessPhoto(cardWithPieces("close", 95.0), loadAssessData(), options),
                    UsageError);
}
