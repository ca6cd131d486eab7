// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/piece_review.h"

#include "base/errors.h"
#include "base/text.h"
#include "cli/terminal_picture.h"
#include "record/piece_corrections.h"
#include "report/annotated_photo.h"
#include "report/originals.h"
#include "report/picture_bytes.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

namespace swarfbook::cli {
namespace {

constexpr std::size_t largestAsked = 5;

bool isCorrected(const StoredPhoto& photo, const Particle& piece) {
    return std::any_of(photo.corrected.begin(), photo.corrected.end(),
                       [&](const CorrectedPiece& one) { return one.piece == piece.id; });
}

/// The largest pieces without threads, then the doubtful ones.
std::vector<Particle> piecesToAsk(const StoredPhoto& photo) {
    std::vector<Particle> list;
    for (const Particle& piece : photo.measurement.debris->particles)
        if (list.size() < largestAsked && piece.type != ParticleType::fibre &&
            !isCorrected(photo, piece))
            list.push_back(piece);
    const std::size_t largest = list.size();
    for (const Particle& piece : photo.measurement.debris->particles) {
        const bool there = std::any_of(list.begin(), list.begin() + static_cast<long>(largest),
                                       [&](const Particle& one) { return one.id == piece.id; });
        if (piece.mayBeNone() && !there && !isCorrected(photo, piece))
            list.push_back(piece);
    }
    return list;
}

std::string inWords(const Particle& piece) {
    return fmt::format("Piece {}: {:.2f} ± {:.2f} mm, {} ({:.0f} %){}", piece.id,
                       piece.maxFeret.value.value(),
                       1.96 * piece.maxFeret.standardUncertainty.value(), typeWord(piece.type),
                       100.0 * piece.chanceOfType(), piece.mayBeNone() ? ", doubtful" : "");
}

std::string listOfWords() {
    std::vector<std::string> words = correctionWords();
    for (std::string& word : words)
        std::replace(word.begin(), word.end(), ' ', '-');
    return fmt::format("{}", fmt::join(words, ", "));
}

class Review {
  public:
    Review(Book& book, const ReviewAsked& asked, std::istream& answers, std::ostream& talk)
        : book_(book), asked_(asked), answers_(answers), talk_(talk), outputs_(asked.ifThere),
          photo_(book.photo(asked.photo)),
          inTerminal_(asked.toTerminal && terminalShowsPictures()) {
        outputs_.addBook(book.folder());
    }

    ReviewEnd run() {
        const cv::Mat bgr = original();
        const std::vector<Particle> pieces = piecesToAsk(photo_);
        if (pieces.empty())
            talk_ << "No piece is doubtful, and the largest are corrected already.\n";
        std::size_t at = 0;
        while (at < pieces.size() && !end_.stopped)
            at = ask(bgr, pieces, at);
        return end_;
    }

  private:
    cv::Mat original() {
        if (photo_.measurement.refusal || !photo_.measurement.debris)
            throw EvidenceRefused(
                fmt::format("Photo {} was not measured, so it has no pieces.", photo_.id));
        Originals originals(book_);
        auto [bgr, why] = originals.of(photo_);
        if (bgr.empty())
            throw EvidenceRefused(
                fmt::format("The pieces of photo {} cannot be shown. {}", photo_.id, why));
        return bgr;
    }

    /// Shows a piece and takes its answer. @return which piece comes next.
    std::size_t ask(const cv::Mat& bgr, const std::vector<Particle>& pieces, std::size_t at) {
        const Particle& piece = pieces[at];
        const cv::Mat crop = cropOf(bgr, piece);
        talk_ << fmt::format("\n{} of {}. {}\n  {}\n", at + 1, pieces.size(), inWords(piece),
                             written(crop, piece));
        if (inTerminal_) {
            talk_ << std::flush;
            showInTerminal(crop);
        }
        for (;;) {
            const auto line = answer();
            if (!line) {
                end_.stopped = true;
                return at;
            }
            if (*line == "undo") {
                if (kept_.empty()) {
                    talk_ << "Nothing was answered before.\n";
                    continue;
                }
                return takeBack();
            }
            if (line->empty())
                return at + 1;
            if (keep(*line, piece, at))
                return at + 1;
        }
    }

    std::optional<std::string> answer() {
        talk_ << fmt::format("What is it? {}; empty: as measured; undo, stop\n> ", listOfWords())
              << std::flush;
        std::string line;
        if (!std::getline(answers_, line))
            return std::nullopt;
        line.erase(0, line.find_first_not_of(" \t\r"));
        line.erase(line.find_last_not_of(" \t\r") + 1);
        line = lowered(line);
        if (line == "stop" || line == "quit")
            return std::nullopt;
        return line;
    }

    bool keep(std::string said, const Particle& piece, std::size_t at) {
        std::replace(said.begin(), said.end(), '-', ' ');
        try {
            book_.correctPiece(asked_.photo, {piece.centre, said, {asked_.by, ""}, ""});
        } catch (const UsageError& wrong) {
            talk_ << wrong.what() << "\n";
            return false;
        }
        kept_.push_back({piece, at});
        ++end_.corrected;
        return true;
    }

    /// Takes the last answer back and asks about its piece again.
    std::size_t takeBack() {
        const Kept last = kept_.back();
        kept_.pop_back();
        book_.correctPiece(asked_.photo, {last.piece.centre, "", {asked_.by, ""}, ""});
        --end_.corrected;
        talk_ << fmt::format("The answer for piece {} is taken back.\n", last.piece.id);
        return last.at;
    }

    cv::Mat cropOf(const cv::Mat& bgr, const Particle& piece) const {
        const double field = std::max(2.0, 2.5 * piece.maxFeret.value.value());
        return croppedPiece(bgr, photo_.measurement, piece,
                            {.field = Millimetres(field),
                             .scale = PixelsPerMillimetre(480.0 / field),
                             .outline = false,
                             .ring = true,
                             .bar = true});
    }

    /// The crop's file; it is written once.
    std::string written(const cv::Mat& crop, const Particle& piece) {
        const std::filesystem::path file =
            asked_.folder / fmt::format("photo-{}-piece-{}.png", photo_.id, piece.id);
        if (std::find(written_.begin(), written_.end(), piece.id) == written_.end()) {
            outputs_.write(file, pictureBytes(file, crop));
            written_.push_back(piece.id);
            ++end_.asked;
        }
        return file.string();
    }

    struct Kept {
        Particle piece;
        std::size_t at = 0;
    };
    Book& book_;
    const ReviewAsked& asked_;
    std::istream& answers_;
    std::ostream& talk_;
    Outputs outputs_;
    StoredPhoto photo_;
    bool inTerminal_ = false;
    std::vector<Kept> kept_;
    std::vector<int> written_;
    ReviewEnd end_;
};

} // namespace

ReviewEnd reviewPieces(Book& book, const ReviewAsked& asked, std::istream& answers,
                       std::ostream& talk) {
    return Review(book, asked, answers, talk).run();
}

} // namespace swarfbook::cli
