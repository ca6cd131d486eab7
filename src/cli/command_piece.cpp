// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_piece.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/piece_list.h"
#include "cli/terminal.h"
#include "record/book.h"
#include "record/piece_corrections.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <iostream>
#include <utility>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

std::int64_t wholeNumber(const std::string& text, std::string_view what) {
    const bool digits = !text.empty() &&
                        text.size() <= 9 && // longer texts are not a piece's number
                        text.find_first_not_of("0123456789") == std::string::npos;
    if (!digits)
        throw UsageError(fmt::format("\"{}\" is not a {} number. swarfbook piece --photo P lists "
                                     "the pieces of a photo, swarfbook visit show N the photos.",
                                     text, what));
    return std::stoll(text);
}

/// "31.2,20.4" as a place on the card.
PointOnCard placeTyped(const std::string& text) {
    const std::size_t comma = text.find(',');
    try {
        std::size_t used = 0, usedAfter = 0;
        const std::string after = comma == std::string::npos ? "" : text.substr(comma + 1);
        const PointOnCard at{std::stod(text, &used), std::stod(after, &usedAfter)};
        if (used == comma && usedAfter == after.size())
            return at;
    } catch (const std::logic_error&) { // of std::stod
    }
    throw UsageError(
        fmt::format("\"{}\" is not a place. Give it in millimetres from the card's top "
                    "left corner, right and down: --at 31.2,20.4.",
                    text));
}

/// Dashes as blanks: "not-debris" is "not debris".
std::string wordTyped(std::string word) {
    std::replace(word.begin(), word.end(), '-', ' ');
    const auto& words = correctionWords();
    if (std::find(words.begin(), words.end(), word) == words.end())
        throw UsageError(
            fmt::format("A piece cannot be \"{}\". Say one of: {}.", word, fmt::join(words, ", ")));
    return word;
}

/// A new folder for the crops, private to its owner.
std::filesystem::path newCropFolder() {
    std::string name =
        (std::filesystem::temp_directory_path() / "swarfbook-pieces-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr)
        throw ToolError(fmt::format("No folder for the pictures of the pieces could be made in {}: "
                                    "{}. Say another one with --crops FOLDER.",
                                    std::filesystem::temp_directory_path().string(),
                                    std::strerror(errno)));
    return name;
}

class PieceCommand : public Command {
  public:
    explicit PieceCommand(ReviewPieces review) : review_(std::move(review)) {}
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("piece", po::value<std::vector<std::string>>(),
            "numbers of pieces in the list of the photo's pieces");
        add("photo", text(), "the photo's number in visit show");
        add("is", text(),
            "what it is: bright-metal, yellow-metal, lining, plastic, fibre, not-debris (a shadow "
            "or scratch) or left-over (of assembly); the last two count nowhere");
        add("at", text(), "instead of a number: its place in mm, as 31.2,20.4");
        add("one", "the pieces are one piece: a glint or a thread cuts it in the photo");
        add("two", "the piece is two that touch; for three and more, divide a part again");
        add("undo", "take the correction back; of a piece that was joined or divided by hand, what "
                    "was said of its type first");
        add("review", "walk through the five largest and the doubtful pieces: a picture of each is "
                      "written to a file, and shown in a terminal that shows sixel graphics; you "
                      "are asked what it is");
        add("crops", text(), "with --review: the folder for the pictures (else a new one)");
        add("force", "with --review: replace pictures that are there already");
        add("by", text(), "who corrects it");
        add("why", text(), "why");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("piece", -1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        if (!has(words, "photo"))
            throw UsageError("Which photo? swarfbook visit show N shows the photos' numbers: "
                             "swarfbook piece --photo 2.");
        photo_ = wholeNumber(textOf(words, "photo"), "photo");
        if (has(words, "piece"))
            for (const std::string& text : words["piece"].as<std::vector<std::string>>())
                pieces_.push_back(wholeNumber(text, "piece"));
        if (has(words, "at"))
            at_ = placeTyped(textOf(words, "at"));
        undo_ = has(words, "undo");
        said_ = has(words, "is") ? wordTyped(textOf(words, "is")) : "";
        one_ = has(words, "one");
        two_ = has(words, "two");
        list_ = pieces_.empty() && !at_;
        requireOneCorrection();
        reason_ = {textOf(words, "by"), textOf(words, "why")};
        book_ = maybeTextOf(words, "book");
        asksAll_ = has(words, "review");
        if (asksAll_ && !list_)
            throw UsageError("--review asks about pieces one after the other: leave their numbers "
                             "out.");
        if (!asksAll_ && (has(words, "crops") || has(words, "force")))
            throw UsageError("--crops and --force go with --review.");
        crops_ = has(words, "crops") ? fileNameOf(words, "crops") : "";
        force_ = has(words, "force");
    }

    int run() override {
        if (asksAll_)
            return reviewAll();
        if (list_) {
            std::cout << piecesText(bookToRead(book_).photo(photo_));
            return done;
        }
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin();
        const StoredPhoto photo = book.photo(photo_);
        std::vector<PointOnCard> places;
        for (const std::int64_t number : pieces_)
            places.push_back(placeOf(photo, number));
        if (at_)
            places.push_back(*at_);
        if (one_ || two_)
            book.regroupPieces(photo_, {places, reason_, ""});
        else
            for (const PointOnCard& place : places)
                correct(book, photo, place);
        transaction.commit();
        const std::string said = saidNow(places.size());
        nowKept(said);
        std::cout << said << "\n";
        return done;
    }

  private:
    /// One thing is said of pieces that are named, and of as many as it can be said of.
    void requireOneCorrection() const {
        const std::size_t named = pieces_.size() + (at_ ? 1 : 0);
        const int asked =
            (undo_ ? 1 : 0) + (said_.empty() ? 0 : 1) + (one_ ? 1 : 0) + (two_ ? 1 : 0);
        if (named > 0 && asked != 1)
            throw UsageError("Say one thing of the piece: what it is, such as --is lining, that "
                             "the pieces are --one or the piece --two, or --undo, which takes a "
                             "correction back.");
        if (named == 0 && asked > 0)
            throw UsageError("Say which piece: its number, or its place with --at X,Y.");
        if (one_ && named < 2)
            throw UsageError("Give two or more pieces that are --one.");
        if (two_ && named > 1)
            throw UsageError("Give one piece that is --two.");
    }

    /// An undo takes back what was said of the type, else that it was joined or divided.
    void correct(Book& book, const StoredPhoto& photo, PointOnCard at) const {
        const Particle* piece =
            undo_ && photo.measurement.debris ? pieceAt(*photo.measurement.debris, at) : nullptr;
        const bool typed =
            piece == nullptr ||
            std::any_of(photo.corrected.begin(), photo.corrected.end(),
                        [&](const CorrectedPiece& one) { return one.piece == piece->id; });
        if (typed || regroupingOf(photo, piece->id) == nullptr)
            book.correctPiece(photo_, {at, said_, reason_, ""});
        else
            book.undoRegrouping(photo_, at, reason_);
    }

    [[nodiscard]] std::string saidNow(std::size_t count) const {
        const std::string what = count == 1 ? "1 piece" : fmt::format("{} pieces", count);
        if (undo_)
            return fmt::format("The correction of {} of photo {} is taken back.", what, photo_);
        return fmt::format("{} of photo {}: {}. Counts, wear score and suggestion follow. "
                           "--undo takes it back.",
                           what, photo_,
                           one_   ? "one piece"
                           : two_ ? "two pieces"
                                  : said_);
    }

    int reviewAll() {
        Book book = bookToWrite(book_);
        ReviewAsked asked{photo_, reason_.by, crops_, force_ ? IfThere::replace : IfThere::refuse,
                          terminalWidth(Stream::output).has_value()};
        if (crops_.empty())
            asked.folder = newCropFolder();
        else if (!std::filesystem::is_directory(asked.folder))
            throw UsageError(fmt::format("{} is not a folder. Make it first.", crops_));
        const ReviewEnd end = review_(book, asked, std::cin, std::cout);
        const std::string said = fmt::format(
            "{} of {} pieces shown were corrected by hand{}. Counts, wear score and "
            "suggestion follow. The pictures lie in {}.",
            end.corrected, end.asked, end.stopped ? "; it was stopped" : "", asked.folder.string());
        nowKept(said);
        std::cout << "\n" << said << "\n";
        return done;
    }

    /// Place of the piece with that number, also if it no longer counts.
    static PointOnCard placeOf(const StoredPhoto& photo, std::int64_t number) {
        for (const CorrectedPiece& one : photo.corrected)
            if (one.piece == number)
                return one.correction.at;
        if (photo.measurement.debris)
            for (const Particle& piece : photo.measurement.debris->particles)
                if (piece.id == number)
                    return piece.centre;
        throw UsageError(
            fmt::format("Photo {0} has no piece {1}. swarfbook piece --photo {0} lists "
                        "its pieces.",
                        photo.id, number));
    }

    std::int64_t photo_ = 0;
    std::vector<std::int64_t> pieces_;
    std::optional<PointOnCard> at_;
    std::string said_;
    bool one_ = false, two_ = false, undo_ = false, list_ = false, asksAll_ = false, force_ = false;
    std::string crops_;
    ReviewPieces review_;
    ChangeReason reason_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry pieceEntry(ReviewPieces review) {
    return {"piece", "List a photo's pieces, and correct by hand what one is",
            "swarfbook piece --photo P\n"
            "       swarfbook piece --photo P NUMBER... --is WORD [--by WHO] [--why TEXT]\n"
            "       swarfbook piece --photo P NUMBER NUMBER... --one\n"
            "       swarfbook piece --photo P NUMBER --two\n"
            "       swarfbook piece --photo P NUMBER... --undo\n"
            "       swarfbook piece --photo P --review [--crops FOLDER]",
            "swarfbook piece --photo 1 --book trial-book",
            [review = std::move(review)]() -> Command* { return new PieceCommand(review); }};
}

} // namespace swarfbook::cli
