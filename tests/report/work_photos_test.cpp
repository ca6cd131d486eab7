// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_json.h"
#include "report/report_picture.h"
#include "report/report_text.h"
#include "report/trial_report_book.h"
#include "report/work_photos_drawing.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

std::vector<std::byte> fileOf(const std::vector<unsigned char>& bytes) {
    const auto* first = reinterpret_cast<const std::byte*>(bytes.data());
    return {first, first + bytes.size()};
}

/// A JPEG of 1600 x 1200 pixels of one colour, with an EXIF block (Exif 2.3, 4.5) that turns it a
/// quarter clockwise, so that it is shown 1200 wide, and that names a camera.
std::vector<std::byte> turnedJpeg(int lightness) {
    std::vector<unsigned char> jpeg =
        jpegBytes(cv::Mat(1200, 1600, CV_8UC3, cv::Scalar::all(lightness)));
    const std::string tiff = std::string("II*\0\x08\0\0\0", 8) + std::string("\x02\0", 2) +
                             std::string("\x0f\x01\x02\0\x0c\0\0\0\x26\0\0\0", 12) + // Make
                             std::string("\x12\x01\x03\0\x01\0\0\0\x06\0\0\0", 12) + // Orientation
                             std::string("\0\0\0\0", 4) + std::string("DemoCamera1\0", 12);
    const std::string block = std::string("Exif\0\0", 6) + tiff;
    const auto length = static_cast<unsigned>(block.size() + 2);
    std::vector<unsigned char> app1{0xFF, 0xE1, static_cast<unsigned char>(length >> 8U),
                                    static_cast<unsigned char>(length & 0xFFU)};
    app1.insert(app1.end(), block.begin(), block.end());
    jpeg.insert(jpeg.begin() + 2, app1.begin(), app1.end());
    return fileOf(jpeg);
}

AfterRepair renewed(const std::string& part) {
    AfterRepair after;
    after.did = "clean and refit";
    after.work = {part + " renewed"};
    return after;
}

struct WorkedBook {
    TrialBook trial;
    std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);

    WorkedBook() {
        trial.photo(visit, 12);
        trial.observe(visit, renewed("filter"));
        trial.observe(visit, renewed("neck seal"));
        Book book = Book::open(trial.folder().path());
        book.addWorkPhoto({1, WorkMoment::before, "secret name.jpg"}, turnedJpeg(60));
        book.addWorkPhoto({1, WorkMoment::after, "b.jpg"}, turnedJpeg(200));
        book.addWorkPhoto({2, WorkMoment::after, "c.jpg"}, turnedJpeg(220));
    }
    [[nodiscard]] ReportModel model() const {
        return reportFromBook(trial.book(), visit, options());
    }
};

} // namespace

TEST_CASE("the customer's report shows the work before and after beside its line of work") {
    const WorkedBook worked;
    const ReportModel model = worked.model();
    REQUIRE(model.workShown.size() == 2);
    CHECK(model.workShown[0].work == "Filter renewed.");
    REQUIRE(model.workShown[0].before.size() == 1);
    REQUIRE(model.workShown[0].after.size() == 1);
    CHECK(model.workShown[1].before.empty());
    const cv::Mat& before = model.workShown[0].before[0].picture;
    CHECK(before.rows == 1100); // upright and made small, 1200 x 1600 in proportion
    CHECK(before.cols == 825);
    CHECK(std::abs(cv::mean(before)[0] - 60.0) < 3.0); // JPEG of one colour, a step or two off
    const ReadPdf pdf = readPdf(pdfReport(model, a4Paper, Reader::customer));
    CHECK(pdf.text.find("The work in photos Filter renewed. Before After") != std::string::npos);
    CHECK(pdf.text.find("Neck seal renewed. After") != std::string::npos);
    CHECK(reportText(model).find("Photos of this work: 1 before, 1 after") != std::string::npos);
    const auto json = reportJson(model)["work_photos"];
    REQUIRE(json.size() == 2);
    CHECK(json[1]["after"].size() == 1);
}

TEST_CASE("neither camera, place nor file name of a photo of work reaches a report") {
    const WorkedBook worked;
    const ReportModel model = worked.model();
    const std::vector<unsigned char> pdf = pdfReport(model);
    const std::string bytes(pdf.begin(), pdf.end());
    for (const char* secret : {"Exif", "DemoCamera1", "secret name"}) {
        INFO(secret);
        CHECK(bytes.find(secret) == std::string::npos);
        CHECK(reportText(model).find(secret) == std::string::npos);
        CHECK(reportJson(model).dump().find(secret) == std::string::npos);
    }
    CHECK(readPdf(pdf).text.find("secret name") == std::string::npos);
}

TEST_CASE("the picture for a message shows the work too, and is higher for it") {
    const WorkedBook worked;
    ReportModel model = worked.model();
    const int withPhotos = reportPicture(model).rows;
    model.workShown.clear();
    CHECK(reportPicture(model).rows > 0);
    CHECK(withPhotos > reportPicture(model).rows + 600); // two rows of photos of some 310 pixels
}

TEST_CASE("a photo of work whose original is gone is left out, and the report says so") {
    const WorkedBook worked;
    std::filesystem::remove(worked.trial.book().originalPhoto(sha256Hex(turnedJpeg(220))));
    const ReportModel model = worked.model();
    CHECK(model.workShown.size() == 1);
    REQUIRE_FALSE(model.notKnown.empty());
    CHECK(model.notKnown.back().find("A photo of the part after the work is not shown") !=
          std::string::npos);
    CHECK_NOTHROW(pdfReport(model));
}

TEST_CASE("photos of work stand inside the width, side by side, whatever their shape") {
    const Picture paper(400, 400);
    ReportedWork work{"Filter renewed.", {}, {}};
    work.before.push_back({"", cv::Mat(100, 900, CV_8UC3)});
    work.after.push_back({"", cv::Mat(900, 100, CV_8UC3)});
    PiecesCanvas canvas{paper.pen(), {10.0, 20.0}, 300.0, 9.0, false, {}};
    std::vector<cv::Rect2d> places;
    canvas.picture = [&](const cv::Mat& bgr, Spot at, Extent room) {
        places.emplace_back(at.x, at.y, room.width, room.height);
        CHECK(room.width / room.height == Approx(double(bgr.cols) / bgr.rows));
    };
    const double height = drawWorkPhotos(canvas, work);
    REQUIRE(places.size() == 2);
    CHECK(places[0].x >= 10.0);
    CHECK(places[0].x + places[0].width < places[1].x);
    CHECK(places[1].x + places[1].width <= 310.0);
    for (const cv::Rect2d& place : places)
        CHECK(place.y + place.height <= 20.0 + height);
    canvas.measureOnly = true;
    CHECK(drawWorkPhotos(canvas, work) == Approx(height));
    CHECK(places.size() == 2);
}
