// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_flush.h"

#include "base/errors.h"
#include "base/sha256.h"
#include "cli/flush_output.h"
#include "cli/given_photos.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal.h"
#include "cli/visit_meant.h"
#include "entry/flush_kept.h"
#include "entry/measure_for_book.h"
#include "photo/decode.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <stdexcept>

namespace po = boost::program_options;
namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

std::int64_t flushNumber(const std::string& text) {
    const bool digits = !text.empty() && text.size() <= 9 && // more would be no number of a flush
                        text.find_first_not_of("0123456789") == std::string::npos;
    if (!digits)
        throw UsageError(
            fmt::format("\"{}\" is not the number of a flush. swarfbook flush show says "
                        "the numbers.",
                        text));
    return std::stoll(text);
}

FlushStep typedStep(const std::string& text) {
    if (text.empty())
        throw UsageError("Say what the pass was: --step wash, demagnetise, air or hot.");
    try {
        return flushStepFromName(text == "demagnetize" ? "demagnetise" : text);
    } catch (const std::invalid_argument&) {
        throw UsageError(
            fmt::format("\"{}\" is not a step of a flush. Say --step wash, demagnetise, "
                        "air or hot.",
                        text));
    }
}

class FlushCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("action", text(), "the first word: start, add, show or withdraw");
        add("photo", text(),
            "add: the photo of what the pass washed into the tray, with the card; withdraw: the "
            "flush's number");
        addVisitOptions(all);
        add("part", text(), "start: what is flushed, such as \"solenoid A\"");
        add("sure", "start: the part is meant as typed, though the unit's chart does not have it");
        add("blank", text(),
            "start: a photo of the clean tray with the card in it, before the first pass; what it "
            "shows as well is not counted in any pass");
        add("flush", text(), "add: the flush's number (else the newest of the visit)");
        add("step", text(), "add: what the pass was: wash, demagnetise, air or hot");
        add("serial", text(), "of the card in the photo, where it has no printed code");
        add("measured-bar", text(), "the card's check bar as callipers read it, mm");
        add("why", text(), "withdraw: why");
        add("by", text(), "withdraw: who withdraws it");
        add("undo", "withdraw: bring it back");
        add("json", "show: write the document");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1).add("photo", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        action_ = textOf(words, "action");
        if (action_ == "start")
            allowOnly(words, "flush start",
                      {"action", "visit", "vehicle", "part", "sure", "blank", "serial",
                       "measured-bar", "book"});
        else if (action_ == "add")
            allowOnly(words, "flush add",
                      {"action", "photo", "visit", "vehicle", "flush", "step", "serial",
                       "measured-bar", "book"});
        else if (action_ == "show")
            allowOnly(words, "flush show", {"action", "visit", "vehicle", "json", "book"});
        else if (action_ == "withdraw")
            allowOnly(words, "flush withdraw", {"action", "photo", "why", "by", "undo", "book"});
        else
            throw UsageError("Say what to do: swarfbook flush start, add, show or withdraw.");
        asked_ = visitAsked(words);
        part_ = textOf(words, "part");
        sure_ = has(words, "sure");
        cleanTray_ = fileNameOf(words, "blank");
        photo_ = fileNameOf(words, "photo");
        if (action_ == "add" && photo_.empty())
            throw UsageError("Which photo? swarfbook flush add --step wash TRAY.jpg");
        if (has(words, "flush"))
            flush_ = flushNumber(textOf(words, "flush"));
        if (action_ == "withdraw")
            flush_ = flushNumber(photo_);
        reason_ = {textOf(words, "by"), textOf(words, "why")};
        undo_ = has(words, "undo");
        if (action_ == "add")
            step_ = typedStep(textOf(words, "step"));
        how_.place = Place::tray;
        how_.serial = textOf(words, "serial");
        how_.typedBarMm = numberOf(words, "measured-bar", "149.6");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        if (action_ == "withdraw")
            return withdraw(*flush_);
        return action_ == "start" ? start() : action_ == "add" ? addPass() : show();
    }

  private:
    int show() const {
        const Book book = bookToRead(book_);
        const Visit visit = visitMeant(book, asked_);
        std::cout << (json_ ? flushesJson(book, visit.id).dump() + "\n"
                            : flushesText(book, visit.id));
        return done;
    }

    /// The photo measured as one of the tray. EvidenceRefused, with the photo's own advice, where
    /// it cannot be counted.
    [[nodiscard]] Measurement measured(const Book& book, PhotoFile file, std::string_view what) {
        if (!data_) {
            data_ = loadAssessData();
            data_->models.startLoading();
        }
        Measurement m = measureForBook(book, std::move(file), *data_, how_);
        requireCounted(m, what);
        return m;
    }

    int start() {
        Book book = bookToMeasureFor(book_);
        const Visit visit = visitMeant(book, asked_);
        NewFlush begun{visit.id, partToFlush(book, visit, part_, sure_ ? Sure::meant : Sure::ask),
                       "", std::nullopt};
        std::vector<std::byte> bytes;
        const std::string name = fs::path(cleanTray_).filename().string();
        if (!cleanTray_.empty()) {
            auto read = readPhotoFile(fs::path(cleanTray_));
            begun.tray = measured(book, photoFrom(read, name), "The photo of the clean tray");
            bytes = std::move(*read);
        }
        const StoredFlush flush = beginFlush(book, std::move(begun), {name, bytes});
        nowKept(fmt::format("Flush {} of visit {} is in the book.", flush.id, flush.visitId));
        std::cout << flushText(book, flush);
        talk() << fmt::format("swarfbook: after each pass photograph the tray with the card on the "
                              "same spot, then: swarfbook flush add --flush {} --step wash "
                              "TRAY.jpg. Empty and wipe the tray before the next pass.\n",
                              flush.id);
        return done;
    }

    int withdraw(std::int64_t number) {
        Book book = bookToWrite(book_);
        if (undo_)
            book.bringBackFlush(number, reason_);
        else
            book.withdrawFlush(number, reason_);
        const std::string said =
            undo_ ? fmt::format("Flush {} is back.", number)
                  : fmt::format("Flush {0} is withdrawn: it stays in the book and counts nowhere. "
                                "swarfbook flush withdraw {0} --undo brings it back.",
                                number);
        nowKept(said);
        std::cout << said << "\n";
        return done;
    }

    [[nodiscard]] StoredFlush flushMeant(const Book& book) const {
        if (flush_)
            return book.flush(*flush_);
        const Visit visit = visitMeant(book, asked_);
        const std::vector<StoredFlush> all = book.flushes(visit.id);
        if (all.empty())
            throw UsageError(fmt::format("Visit {0} has no flush yet. Begin one: swarfbook flush "
                                         "start --visit {0} --part \"solenoid A\".",
                                         visit.id));
        return all.back();
    }

    int addPass() {
        Book book = bookToMeasureFor(book_);
        const StoredFlush flush = flushMeant(book);
        const fs::path file(photo_);
        const auto bytes = readPhotoFile(file);
        const std::string name = file.filename().string();
        how_.cleanReference = cleanTrayOf(book, flush);
        const auto before =
            bytes ? measuredForFlush(book, sha256Hex(*bytes), flush) : std::optional<StoredPhoto>();
        const Measurement pass =
            before ? before->measurement : measured(book, photoFrom(bytes, name), "The photo");
        keepPass(book, flush, {name, *bytes}, {step_, how_, pass, before.has_value()});
        nowKept(fmt::format("The pass is in the book, in flush {}.", flush.id));
        std::cout << flushText(book, book.flush(flush.id));
        for (const std::string& caution : pass.cautions)
            std::cerr << fmt::format("swarfbook: {}: {}\n", name, caution);
        return done;
    }

    std::string action_, part_, cleanTray_, photo_;
    VisitAsked asked_;
    std::optional<std::int64_t> flush_;
    FlushStep step_ = FlushStep::wash;
    HowMeasured how_;
    ChangeReason reason_;
    bool json_ = false, sure_ = false, undo_ = false;
    std::optional<std::string> book_;
    std::optional<AssessData> data_;
};

} // namespace

CommandEntry flushEntry() {
    return {"flush", "Keep the log of a part that is flushed, pass by pass",
            "swarfbook flush start [--visit N] --part PART [--blank CLEAN-TRAY] [--sure]\n"
            "       swarfbook flush add [--flush N] --step STEP TRAY-PHOTO\n"
            "       swarfbook flush show [--visit N] [--json]\n"
            "       swarfbook flush withdraw N --why TEXT [--by WHO] | --undo",
            "swarfbook flush start --visit 1 --part \"solenoid A\" --book trial-book\n"
            "swarfbook flush show --visit 1 --book trial-book",
            []() -> Command* { return new FlushCommand; }};
}

} // namespace swarfbook::cli
