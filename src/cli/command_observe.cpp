// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_observe.h"

#include "base/errors.h"
#include "cli/book_output.h"
#include "cli/observe_words.h"
#include "cli/open_book.h"
#include "cli/text_of_file.h"
#include "cli/visit_meant.h"
#include "entry/keep_observation.h"
#include "entry/work_photo_words.h"
#include "record/book.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <cstddef>
#include <filesystem>
#include <iostream>
#include <map>
#include <sstream>
#include <utility>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

/// An observation read from what was typed, and where it stood.
struct ReadObservation {
    ToKeep toKeep;
    std::size_t lineNumber = 0;
    std::vector<TypedWorkPhoto> photos{};
    std::vector<std::vector<std::byte>> photoBytes{}; ///< of each, once it was read
};

class ObserveCommand : public Command {
  public:
    explicit ObserveCommand(ReadWorkPhoto readPhoto) : readPhoto_(std::move(readPhoto)) {}

    [[nodiscard]] po::options_description options() const override { return observeOptions(); }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("words", -1);
        return words;
    }

    [[nodiscard]] std::string preface() const override { return kindsHelp(); }

    [[nodiscard]] std::string helpOn(const std::vector<std::string>& words) const override {
        for (const std::string& word : words)
            if (!word.starts_with("-") && !word.empty() && formNamed(word) != nullptr)
                return kindHelp(word);
        return {};
    }

    void take(const std::vector<std::string>& words) override {
        for (const auto& part : partsOfLine(words))
            parse(parsedOptions(*this, part));
        for (TypedObservation& one : typed_)
            if (one.by.empty())
                one.by = by_;
        if (!file_.empty() && !typed_.empty())
            throw UsageError("Give the observations in the file or after observe, not both.");
        if (file_.empty())
            for (const TypedObservation& one : typed_)
                readOne(one);
    }

    /// One part of what was typed.
    void parse(const ParsedOptions& words) override {
        if (has(words, "visit") || has(words, "vehicle"))
            asked_ = visitAsked(words);
        book_ = has(words, "book") ? maybeTextOf(words, "book") : book_;
        json_ = json_ || has(words, "json");
        by_ = by_.empty() ? textOf(words, "by") : by_;
        file_ = has(words, "file") ? fileNameOf(words, "file") : file_;
        if (const auto one = typedObservation(words))
            typed_.push_back(*one);
        else
            allowOnly(words, "observe", {"visit", "vehicle", "json", "book", "file", "by"});
    }

    int run() override {
        if (!file_.empty())
            readFile();
        if (read_.empty()) {
            const Book book = bookToRead(book_);
            return showAll(book, visitMeant(book, asked_));
        }
        readPhotos();
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin();
        const Visit visit = visitMeant(book, asked_);
        ObservationKeeper keeper(book, visit);
        std::vector<StoredObservation> stored;
        for (ReadObservation& one : read_)
            stored.push_back(keepOne(keeper, one));
        keepPhotos(book, stored);
        transaction.commit();
        sayKept(visit, stored);
        const std::vector<WorkPhoto> photos = book.workPhotos(visit.id);
        for (std::size_t i = 0; i < stored.size(); ++i)
            print(read_[i].toKeep.observation, stored[i], workPhotoWords(photos, stored[i].id));
        for (const std::string& remark : keeper.takeRemarks())
            std::cerr << "swarfbook: " << remark << "\n";
        return done;
    }

  private:
    /// A line of work may hold several; the first is the one that corrects and has the photos.
    void readOne(const TypedObservation& one) {
        std::optional<std::int64_t> corrects = one.corrects;
        std::vector<TypedWorkPhoto> photos = one.photos;
        for (Observation& meant : observationsMeant(one)) {
            read_.push_back({{std::move(meant), one.by, corrects, one.sure},
                             one.lineNumber,
                             std::exchange(photos, {})});
            corrects.reset();
        }
    }

    /// All files are read and decoded before anything is kept.
    void readPhotos() {
        for (ReadObservation& one : read_)
            for (const TypedWorkPhoto& photo : one.photos)
                one.photoBytes.push_back(readPhoto_(photo.file));
    }

    void keepPhotos(Book& book, const std::vector<StoredObservation>& stored) const {
        for (std::size_t i = 0; i < read_.size(); ++i)
            for (std::size_t k = 0; k < read_[i].photos.size(); ++k) {
                const TypedWorkPhoto& photo = read_[i].photos[k];
                const std::string name = std::filesystem::path(photo.file).filename().string();
                book.addWorkPhoto({stored[i].id, photo.moment, name}, read_[i].photoBytes[k]);
            }
    }

    static std::string inLine(std::size_t number, const std::string& sentence) {
        return number == 0 ? sentence : fmt::format("Line {}: {}", number, sentence);
    }

    StoredObservation keepOne(ObservationKeeper& keeper, ReadObservation& one) const {
        try {
            return keeper.keep(one.toKeep);
        } catch (const UsageError& wrong) {
            if (one.lineNumber == 0)
                throw;
            throw UsageError(inLine(one.lineNumber, wrong.what()) + " Nothing was kept.");
        }
    }

    /// Every line is read before any is kept; all wrong ones are named.
    void readFile() {
        std::istringstream lines(textOfFile(file_, "file of observations"));
        std::string wrong, line;
        for (std::size_t number = 1; std::getline(lines, line); ++number) {
            try {
                readLine(line, number);
            } catch (const UsageError& error) {
                wrong += inLine(number, error.what()) + "\n";
            } catch (const po::error& error) {
                wrong += inLine(number, error.what()) + ".\n";
            }
        }
        if (!wrong.empty())
            throw UsageError(fmt::format("nothing of {} was kept.\n{}Put these lines right and "
                                         "give the command again.",
                                         file_ == "-" ? "what was pasted" : file_, wrong));
        if (read_.empty())
            throw UsageError(fmt::format("{} holds no observation.", file_));
    }

    void readLine(const std::string& line, std::size_t number) {
        const std::vector<std::string> words = wordsOfLine(line);
        if (words.empty() || words.front().starts_with("#"))
            return;
        for (const auto& part : partsOfLine(words)) {
            const ParsedOptions parsed = parsedOptions(*this, part);
            for (const char* ofTheVerb : {"visit", "vehicle", "book", "json", "file"})
                if (has(parsed, ofTheVerb))
                    throw UsageError(
                        fmt::format("--{} is given with the command, not in a line.", ofTheVerb));
            auto one = typedObservation(parsed);
            if (!one)
                throw UsageError("Begin the line with the kind of observation.");
            one->lineNumber = number;
            one->by = one->by.empty() ? by_ : one->by;
            readOne(*one);
        }
    }

    void sayKept(const Visit& visit, const std::vector<StoredObservation>& stored) {
        nowKept(stored.size() == 1
                    ? fmt::format("The observation is in the book, number {} of visit {}.",
                                  stored.front().id, visit.id)
                    : fmt::format("The observations are in the book, numbers {} to {} of visit {}.",
                                  stored.front().id, stored.back().id, visit.id));
    }

    /// @param photos  words on its photos of work, "" without any
    void print(const Observation& observation, const StoredObservation& stored,
               const std::string& photos, const std::string& replaced = {}) const {
        const std::string remarks =
            photos + (photos.empty() || replaced.empty() ? "" : ", ") + replaced;
        std::cout << (json_ ? observationJson(stored.visitId, observation, stored, replaced.empty())
                            : observationText(stored.visitId, observation, stored, remarks));
    }

    int showAll(const Book& book, const Visit& visit) const {
        const std::vector<StoredObservation> all = book.observations(visit.id);
        if (all.empty() && !json_)
            std::cout << fmt::format("visit {}: nothing observed yet\n", visit.id);
        const std::vector<WorkPhoto> photos = book.workPhotos(visit.id);
        std::map<std::int64_t, std::int64_t> replacedBy;
        for (const StoredObservation& one : all)
            if (one.corrects)
                replacedBy.emplace(*one.corrects, one.id);
        for (const StoredObservation& one : all) {
            const auto later = replacedBy.find(one.id);
            if (const auto observation = observationIfReadable(book, one))
                print(*observation, one, workPhotoWords(photos, one.id),
                      later == replacedBy.end() ? ""
                                                : fmt::format("replaced by {}", later->second));
        }
        return done;
    }

    VisitAsked asked_;
    bool json_ = false;
    std::optional<std::string> book_;
    std::string by_, file_;
    std::vector<TypedObservation> typed_;
    std::vector<ReadObservation> read_;
    ReadWorkPhoto readPhoto_; ///< empty in the quick program, which is not asked for it
};

} // namespace

CommandEntry observeEntry(ReadWorkPhoto readPhoto) {
    return {
        "observe", "Type in what was seen and tested by hand",
        "swarfbook observe [--visit N] KIND ... [options] [and KIND ...]\n"
        "       swarfbook observe [--visit N] --file FILE\n"
        "       swarfbook observe KIND --help",
        "swarfbook observe --visit 1 codes P0733 P0735 --book trial-book",
        [readPhoto = std::move(readPhoto)]() -> Command* { return new ObserveCommand(readPhoto); }};
}

} // namespace swarfbook::cli
