// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <sys/inotify.h>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// Counts how often a file is opened, by whatever program (inotify(7)). Closing is watched too: the
/// kernel joins events that are alike and follow each other.
class Openings {
  public:
    explicit Openings(const fs::path& file) : queue_(inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {
        if (queue_ < 0 || inotify_add_watch(queue_, file.c_str(), IN_OPEN | IN_CLOSE) < 0)
            throw std::runtime_error("cannot watch " + file.string());
    }
    Openings(const Openings&) = delete;
    Openings& operator=(const Openings&) = delete;
    ~Openings() { close(queue_); }

    /// Since the last time.
    [[nodiscard]] int count() const {
        int opened = 0;
        inotify_event event{}; // of a watched file, which comes without a name
        while (read(queue_, &event, sizeof event) == sizeof event)
            opened += (event.mask & IN_OPEN) != 0 ? 1 : 0;
        return opened;
    }

  private:
    int queue_;
};

const fs::path project = SWARFBOOK_SOURCE_DIR;

/// A shop with two photos and its own models, so that no other test opens them.
struct OwnFiles {
    Shop shop;

    OwnFiles() {
        fs::copy_file(demoPhotos() / "history-1.jpg", at("one.jpg"));
        fs::copy_file(demoPhotos() / "history-2.jpg", at("two.jpg"));
        fs::create_directory(at("data"));
        for (const char* folder : {"calibration", "models"})
            fs::copy(project / folder, at("data") / folder, fs::copy_options::recursive);
    }
    [[nodiscard]] fs::path at(const std::string& name) const { return shop.folder.path() / name; }
    void done(const std::vector<std::string>& words) const {
        RunOptions options;
        options.folder = shop.folder.path();
        options.environment["SWARFBOOK_BOOK"] = at("book").string();
        options.environment["SWARFBOOK_DATA"] = at("data").string();
        const ProgramResult outcome = runProgram(words, options);
        INFO(outcome.err);
        REQUIRE(outcome.exit == 0);
    }
    /// Where the book keeps it.
    [[nodiscard]] fs::path original(const std::string& photo) const {
        const std::string content = contentOf(at(photo));
        for (const auto& entry : fs::recursive_directory_iterator(at("book/photos")))
            if (entry.is_regular_file() && contentOf(entry.path()) == content)
                return entry.path();
        throw std::runtime_error("the book does not hold " + photo);
    }
};

} // namespace

TEST_CASE("a photo that is opened twice is counted twice", "[program]") {
    const OwnFiles files;
    const Openings openings(files.at("one.jpg"));
    CHECK(openings.count() == 0);
    CHECK(contentOf(files.at("one.jpg")) == contentOf(files.at("one.jpg")));
    CHECK(openings.count() == 2);
    CHECK(openings.count() == 0);
}

TEST_CASE("measuring photos reads each of them and each model once", "[program]") {
    const OwnFiles files;
    fs::create_directory(files.at("drawn"));
    const Openings one(files.at("one.jpg")), two(files.at("two.jpg"));
    const Openings pieces(files.at("data/models/pieces.onnx"));
    const Openings trust(files.at("data/models/piece-trust.json"));
    const Openings contacts(files.at("data/models/contact-trust.json"));
    files.done({"measure", "one.jpg", "two.jpg", "--annotated", "drawn"});
    CHECK(one.count() == 1);
    CHECK(two.count() == 1);
    CHECK(pieces.count() == 1);
    CHECK(trust.count() == 1);
    CHECK(contacts.count() == 1);
}

TEST_CASE("adding, measuring again and reporting read each photo once", "[program]") {
    const OwnFiles files;
    files.done({"vehicle", "add", "DEMO-03"});
    files.done({"visit", "add", "DEMO-03", "--date", "2025-03-01"});
    files.done({"visit", "add", "DEMO-03", "--date", "2025-06-01"});
    const Openings given(files.at("one.jpg")), pieces(files.at("data/models/pieces.onnx"));
    files.done({"add", "--visit", "1", "one.jpg", "--place", "pad"});
    CHECK(given.count() == 1);
    CHECK(pieces.count() == 1);
    files.done({"add", "--visit", "2", "two.jpg", "--place", "pad"});
    CHECK(pieces.count() == 1);
    const Openings before(files.original("one.jpg")), now(files.original("two.jpg"));
    (void)before.count(); // opened while searching for the other one
    files.done({"visit", "measure", "2"});
    CHECK(now.count() == 1);
    CHECK(before.count() == 0);
    CHECK(pieces.count() == 1);
    files.done({"report", "--visit", "2", "--out", "report.pdf"}); // with both, side by side
    CHECK(now.count() == 1);
    CHECK(before.count() == 1);
    CHECK(pieces.count() == 0);
    files.done({"suggest", "--visit", "2", "--why"}); // judges by the measurement
    CHECK(now.count() == 0);
    CHECK(before.count() == 0);
    CHECK(pieces.count() == 0);
}

TEST_CASE("a clean reference is read once for all its photos", "[program]") {
    const OwnFiles files;
    fs::copy_file(demoPhotos() / "history-4.jpg", files.at("blank.jpg"));
    const Openings cleanReference(files.at("blank.jpg"));
    RunOptions options;
    options.folder = files.shop.folder.path();
    (void)runProgram({"measure", "one.jpg", "two.jpg", "--blank", "blank.jpg"}, options);
    CHECK(cleanReference.count() == 1);
}
