// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"
#include "files/temporary_folder.h"
#include "record/database.h"
#include "record/evidence_of_visit.h"
#include "record/trial_book.h"
#include "report/hand_made.h"
#include "report/learned_cases.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <iterator>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const SuggestionModel& shipped() {
    static const SuggestionModel loaded =
        loadSuggestionModel(SWARFBOOK_SOURCE_DIR "/models/suggestion.json");
    return loaded;
}

std::string inWords(std::vector<LearnedCase> cases) {
    std::vector<std::string> lines;
    for (const LearnedCase& one : cases)
        lines.push_back(fmt::format("{}; {}; {}; {}\n", recommendationName(one.outcome),
                                    one.pattern, wordOf(one.held), one.asSuggested));
    std::sort(lines.begin(), lines.end());
    std::string all;
    for (const std::string& line : lines)
        all += line;
    return all;
}

/// A photo of the white card with some pieces of bright metal of this radius.
Measurement measured(const std::vector<std::byte>& bytes, double radiusMm) {
    const HandMadeCamera camera;
    Measurement measurement = emptyMeasurement(camera);
    for (int i = 0; i < 6; ++i)
        measurement.debris->particles.push_back(
            roundParticle(i + 1, {28.0 + 7.0 * i, 30.0}, radiusMm, ParticleType::brightMetal));
    countParticles(measurement);
    measurement.photo.sha256 = sha256Hex(bytes);
    return measurement;
}

/// Four visits with an outcome and one without, each with an open coil and a photo.
class LearningBook {
  public:
    LearningBook() {
        const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
        for (int number = 1; number <= 5; ++number) {
            const std::int64_t visit =
                book.addVisit(visitOn(vehicle, fmt::format("2025-0{}-14", number))).id;
            const auto bytes = photoBytes(number);
            book.addPhoto({visit, Place::pad, "pad.png", "all of the pan", "{}", "9.9.9"}, bytes,
                          measured(bytes, 0.2));
            Codes codes;
            codes.codes = {"P0753"};
            observe(visit, codes);
            SolenoidReadings coil;
            coil.name = "A";
            coil.openCircuit = true;
            observe(visit, coil);
            if (number < 5)
                observe(visit, outcome(number == 4 ? Held::cameBack : Held::fixed));
        }
    }
    static RepairResult outcome(Held held) {
        RepairResult outcome;
        outcome.held = held;
        return outcome;
    }
    std::int64_t observe(std::int64_t visit, const Observation& observation,
                         std::optional<std::int64_t> corrects = {}) {
        return book
            .addObservation({0, visit, std::string(observationKind(observation)),
                             toJson(observation).dump(), "", "", corrects})
            .id;
    }
    /// The cases that the program would get from this book if nothing had been kept.
    [[nodiscard]] std::string anew() const {
        std::vector<LearnedCase> cases;
        for (std::int64_t visit = 1; visit <= 5; ++visit) {
            Evidence evidence;
            evidence.now = evidenceOfOneVisit(book, book.visit(visit));
            if (const auto one = learnedCase(evidence, shipped()))
                cases.push_back(*one);
        }
        return inWords(cases);
    }
    /// The cases as a reading command gets them.
    [[nodiscard]] std::string learned(const SuggestionModel& by = shipped()) const {
        return inWords(learnedCases(Book::openForReading(folder.path()), by));
    }
    [[nodiscard]] std::int64_t kept() const { return number("SELECT count(*) FROM judged_case"); }
    [[nodiscard]] std::int64_t number(const std::string& sql) const {
        return Database(folder.path() / "book.db", "the book in a test").number(sql);
    }
    /// Changes an entry behind the program's back.
    void change(const std::string& sql) const {
        Database(folder.path() / "book.db", "the book in a test").run(sql);
    }
    [[nodiscard]] std::int64_t outcomeOf(std::int64_t visit) const {
        return number(fmt::format(
            "SELECT max(id) FROM observation WHERE kind = 'outcome' AND visit_id = {}", visit));
    }

    TemporaryFolder folder;
    Book book = Book::open(folder.path());
};

/// Gets the cases twice, the second time from the kept ones; both must agree with cases judged
/// anew. @return these.
std::string learnedTwice(const LearningBook& trial) {
    const std::string anew = trial.anew();
    CHECK(trial.learned() == anew);
    CHECK(trial.learned() == anew);
    return anew;
}

} // namespace

TEST_CASE("a learned case is kept once it was judged, one case for each outcome") {
    const LearningBook trial;
    const std::string learned = learnedTwice(trial);
    CHECK(std::count(learned.begin(), learned.end(), '\n') == 4);
    CHECK(trial.kept() == 4);
}

TEST_CASE("after any change of observations the kept cases agree with cases judged anew") {
    LearningBook trial;
    const std::string before = learnedTwice(trial);
    SECTION("an observation") {
        Complaint complaint;
        complaint.symptom = Symptom::slip;
        trial.observe(2, complaint);
    }
    SECTION("an observation corrected") {
        Codes none;
        trial.observe(2, none, trial.outcomeOf(2) - 2);
    }
    SECTION("an outcome entered for the first time") {
        trial.observe(5, LearningBook::outcome(Held::fixed));
    }
    SECTION("an outcome entered again") {
        trial.observe(2, LearningBook::outcome(Held::cameBack));
    }
    SECTION("an outcome taken back") {
        trial.observe(2, TakenBack{"typed in for another visit"}, trial.outcomeOf(2));
    }
    SECTION("the recorded work overruled") {
        Overruled overruled;
        overruled.outcome = "replace unit";
        trial.observe(2, overruled);
    }
    CHECK(learnedTwice(trial) != before);
}

TEST_CASE(
    "after any change of photos or of the visit the kept cases agree with cases judged anew") {
    LearningBook trial;
    const std::string before = learnedTwice(trial);
    bool differs = true;
    SECTION("a photo measured again") {
        trial.book.addFinding(trial.book.photos(2).at(0).id, measured(photoBytes(2), 2.6), "{}",
                              "9.9.9");
    }
    SECTION("a photo added") {
        const auto bytes = photoBytes(12);
        trial.book.addPhoto({2, Place::pan, "pan.png", "", "{}", "9.9.9"}, bytes,
                            measured(bytes, 2.6));
    }
    SECTION("a photo moved to another visit") {
        trial.book.movePhoto(sha256Hex(photoBytes(2)), 5, Place::pad);
    }
    SECTION("a visit corrected") {
        Visit visit = trial.book.visit(2);
        visit.complaint = "slips when warm";
        trial.book.correctVisit(visit);
        differs = false; // a remark on it does not change the suggestion
    }
    CHECK((learnedTwice(trial) != before) == differs);
}

TEST_CASE("kept judgements are used until the rules change") {
    const LearningBook trial;
    const std::string before = trial.learned();
    trial.change(fmt::format("UPDATE observation SET json = replace(json, 'fixed', 'came-back') "
                             "WHERE id = {}",
                             trial.outcomeOf(2)));
    const std::string changed = trial.anew();
    REQUIRE(changed != before);
    CHECK(trial.learned() == before); // nothing was judged again
    SuggestionModel others = shipped();
    others.sha256 = std::string(64, '0');
    CHECK(trial.learned(others) == changed);
    CHECK(trial.learned() == changed); // the cases of the first rules are gone
}

TEST_CASE("a file of other rules has another checksum, the same rules with another layout have the "
          "same") {
    std::ifstream file(SWARFBOOK_SOURCE_DIR "/models/suggestion.json");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const TemporaryFile spaced(text + "\n\n", "suggestion.json");
    CHECK(loadSuggestionModel(spaced.path()).sha256 == shipped().sha256);
    nlohmann::json other = nlohmann::json::parse(text);
    auto& limit = other.at("limits").at("plenty_from").at("value");
    limit = limit.get<int>() + 1;
    const TemporaryFile changed(other.dump(), "suggestion.json");
    CHECK(loadSuggestionModel(changed.path()).sha256 != shipped().sha256);
}

TEST_CASE("a case with a damaged finding is judged and reported at every reading, and never kept") {
    LearningBook trial;
    trial.change("UPDATE finding SET measurement = '{}' WHERE photo_id = 2");
    for (int reading = 0; reading < 2; ++reading) {
        Book book = Book::openForReading(trial.folder.path());
        std::vector<std::string> told;
        book.talkTo([&](const std::string& sentence) { told.push_back(sentence); });
        CHECK(inWords(learnedCases(book, shipped())) == trial.anew());
        REQUIRE(told.size() == 1);
        CHECK_THAT(told[0], Catch::Matchers::Contains("is damaged"));
        CHECK(trial.kept() == 3);
    }
}

TEST_CASE(
    "a visit that cannot be read is reported at every reading and does not hinder the others") {
    LearningBook trial;
    trial.change(
        fmt::format("UPDATE observation SET json = '[]' WHERE id = {}", trial.outcomeOf(2)));
    for (int reading = 0; reading < 2; ++reading) {
        Book book = Book::openForReading(trial.folder.path());
        std::string told;
        book.talkTo([&](const std::string& sentence) { told += sentence; });
        CHECK(learnedCases(book, shipped()).size() == 3);
        CHECK_THAT(told, Catch::Matchers::Contains("A case to learn from was left out"));
        CHECK(trial.kept() == 3);
    }
}

TEST_CASE("a kept row with words that no judgement uses is judged anew") {
    const LearningBook trial;
    const std::string before = trial.learned();
    const std::string rules(64, 'a');
    trial.change("DELETE FROM judged_case");
    trial.book.keepJudgedCases(trial.book.judgedCases("outcome", rules),
                               {{2, "burn it", "no code, slips, fines", "fixed", true}});
    CHECK(trial.learned() == before);
}
