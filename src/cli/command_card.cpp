// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_card.h"

#include "assess/assess.h"
#include "base/card_serial.h"
#include "base/errors.h"
#include "base/outputs.h"
#include "card/draw_card.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal.h"
#include "record/book.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>

namespace po = boost::program_options;
namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

CardLayout layoutNamed(const std::string& name) {
    std::string known;
    for (CardLayout& layout : loadCardLayouts(dataFolder() / "calibration/reference-card.json")) {
        if (layout.name == name)
            return std::move(layout);
        known += (known.empty() ? "" : " or ") + layout.name;
    }
    throw UsageError(fmt::format("There is no card layout \"{}\". Say --layout {}.", name, known));
}

/// @param foreign  layout of a card that another book printed, "" where none was said
PrintedCard knownCard(const Book& book, const std::string& serial, const std::string& foreign) {
    if (auto card = book.card(serial))
        return *card;
    if (!foreign.empty() && isCodedSerial(serial))
        return {serial, foreign, std::nullopt, ""};
    std::string last;
    const auto all = book.cards();
    const std::size_t shown = std::min<std::size_t>(all.size(), 5);
    for (std::size_t i = all.size() - shown; i < all.size(); ++i)
        last += (last.empty() ? "" : ", ") + all[i].serial;
    throw UsageError(fmt::format(
        "There is no card {} in this book. {} The number stands on the card, below its window. A "
        "card that another book printed is kept with --layout and --measured-bar.",
        serial,
        last.empty() ? "No card has been printed from it yet: swarfbook card --layout close --out "
                       "card.pdf prints one."
                     : "Its latest cards are " + last + "."));
}

/// The card of this layout that was printed last.
PrintedCard printedLast(const Book& book, const std::string& layout) {
    const auto all = book.cards();
    const auto last = std::find_if(all.rbegin(), all.rend(),
                                   [&](const PrintedCard& card) { return card.layout == layout; });
    if (last == all.rend())
        throw UsageError(fmt::format("No {0} card has been printed from this book yet: swarfbook "
                                     "card --layout {0} --out card.pdf prints one.",
                                     layout));
    return *last;
}

class CardCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("layout", text(),
            "close (window 64 x 44 mm) for fine debris and magnets, wide (window 130 x 90 mm) for "
            "pans, filters and trays");
        add("cut", "for a frame: with instructions to cut the window out (else a white card)");
        add("paper", text(), "a4 (unless said) or letter");
        add("out", text(), "the PDF to write");
        add("force", "replace a file that is there already");
        add("serial", text(), "a card that was printed before, by the number on it");
        add("measured-bar", text(),
            "length of the printed check bar by callipers, mm; of the card of --serial, or with "
            "--layout of the one printed last");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        layout_ = textOf(words, "layout");
        serial_ = textOf(words, "serial");
        out_ = textOf(words, "out");
        cut_ = has(words, "cut");
        book_ = maybeTextOf(words, "book");
        if (has(words, "force"))
            outputs_ = Outputs(IfThere::replace);
        measuredBar_ = numberOf(words, "measured-bar", "79.6");
        const std::string paper = has(words, "paper") ? textOf(words, "paper") : "a4";
        if (paper != "a4" && paper != "letter")
            throw UsageError(
                fmt::format("There is no paper \"{}\". Say --paper a4 or --paper letter.", paper));
        paper_ = paper == "a4" ? PaperSize::a4 : PaperSize::letter;
        requireSense(words);
    }

    int run() override {
        outputs_.addBook(bookFolder(book_));
        if (!out_.empty())
            outputs_.plan(out_);
        if (serial_.empty() && !measuredBar_)
            printNew();
        else
            useKnown();
        return done;
    }

  private:
    void requireSense(const ParsedOptions& words) const {
        if (has(words, "out") && fs::path(out_).extension() != ".pdf")
            throw UsageError(fmt::format("The card is written as a PDF, so end the name \"{}\" "
                                         "in .pdf.",
                                         out_));
        if (measuredBar_ && serial_.empty() && layout_.empty())
            throw UsageError("Which card was measured? Say the number printed on it (swarfbook "
                             "card --serial K7Q-M4X --measured-bar 79.6), or its layout where it "
                             "is the one printed last (swarfbook card --layout close "
                             "--measured-bar 79.6).");
        if (measuredBar_)
            allowOnly(words, "card --measured-bar", {"serial", "measured-bar", "layout", "book"});
        if (!measuredBar_ && out_.empty())
            throw UsageError(
                "Say what to do: print a card with swarfbook card --layout close --out "
                "card.pdf, or type the measured bar of a printed one with swarfbook "
                "card --serial K7Q-M4X --measured-bar 79.6.");
        if (!measuredBar_ && serial_.empty() && layout_.empty())
            throw UsageError("Which layout? Say --layout close (window 64 x 44 mm) or --layout "
                             "wide (window 130 x 90 mm).");
    }

    /// The serial is the book's before the file is there: better a number never printed than two
    /// cards of one number.
    void printNew() {
        const CardLayout layout = layoutNamed(layout_);
        Book book = bookToWrite(book_, IfNoBook::startOne);
        BookTransaction transaction = book.begin();
        const std::string serial = book.nextSerial();
        book.saveCard({serial, layout.name, std::nullopt, ""});
        transaction.commit();
        nowKept(fmt::format("Card {} is in the book.", serial));
        write(drawCardPdf({layout, serial, paper_, cut_}), serial, layout);
        tellWhatNext(serial, layout);
    }

    void useKnown() {
        Book book = measuredBar_ ? bookToWrite(book_) : bookToRead(book_);
        const PrintedCard card =
            serial_.empty() ? printedLast(book, layoutNamed(layout_).name)
                            : knownCard(book, serial_, measuredBar_ ? layout_ : std::string());
        const CardLayout layout = layoutNamed(layout_.empty() ? card.layout : layout_);
        if (layout.name != card.layout)
            throw UsageError(fmt::format("Card {} is a {} card. Leave --layout away, or print a "
                                         "new card without --serial.",
                                         card.serial, card.layout));
        if (measuredBar_)
            keepBar(book, card, layout);
        else
            printAgain(card, layout);
    }

    void printAgain(const PrintedCard& card, const CardLayout& layout) {
        write(drawCardPdf({layout, card.serial, paper_, cut_}), card.serial, layout);
        if (card.measuredBarMm)
            std::cerr << fmt::format(
                "The book has {:.2f} mm for this card's check bar, read from the earlier print. "
                "This print may come out at another size: measure its bar as well.\n",
                *card.measuredBarMm);
        tellWhatNext(card.serial, layout);
    }

    void write(const std::vector<unsigned char>& pdf, const std::string& serial,
               const CardLayout& layout) {
        outputs_.write(out_, pdf);
        nowKept(fmt::format("It is in {}.", out_));
        std::cout << fmt::format("Card {}: {} layout, {}, on {} paper, in {}\n", serial,
                                 layout.name, cut_ ? "frame" : "white card",
                                 paper_ == PaperSize::a4 ? "A4" : "Letter", out_);
    }

    void tellWhatNext(const std::string& serial, const CardLayout& layout) const {
        const std::string book = book_ ? fmt::format(" --book \"{}\"", *book_) : "";
        talk() << fmt::format(
            "Print it at 100 % (\"actual size\", not \"fit to page\") on matt white paper. Measure "
            "the check bar\nwith callipers from the middle of one end stroke to the middle of the "
            "other (drawn {:.1f} mm), then:\n  swarfbook card --serial {} --measured-bar MM{}\n",
            layout.checkBarLength(), serial, book);
    }

    void keepBar(Book& book, const PrintedCard& card, const CardLayout& layout) {
        const PrintScale scale = printScaleFromBar(layout, Millimetres(*measuredBar_));
        PrintedCard measured = card;
        measured.measuredBarMm = measuredBar_;
        book.saveCard(measured);
        nowKept(fmt::format("The check bar of card {} is in the book.", card.serial));
        std::cout << fmt::format("Card {}: check bar {:.2f} mm, drawn {:.1f} mm; print scale "
                                 "{:.4f}, standard uncertainty {:.4f}\n",
                                 card.serial, *measuredBar_, layout.checkBarLength(), scale.value,
                                 scale.standardUncertainty);
        if (card.measuredBarMm && *card.measuredBarMm != *measuredBar_)
            std::cerr << fmt::format("The book had {:.2f} mm before. Photos measured until now "
                                     "keep the scale that they were measured by.\n",
                                     *card.measuredBarMm);
        constexpr double worthSaying = 0.01; // from here on it is no printer's tolerance
        if (std::abs(scale.value - 1.0) > worthSaying)
            std::cerr << fmt::format(
                "It was printed {:.1f} % too {}, as \"fit to page\" does. Lengths are put right by "
                "this; better print it again at 100 %.\n",
                100.0 * std::abs(scale.value - 1.0), scale.value < 1.0 ? "small" : "large");
    }

    std::string layout_, serial_, out_;
    bool cut_ = false;
    PaperSize paper_ = PaperSize::a4;
    std::optional<double> measuredBar_;
    std::optional<std::string> book_;
    Outputs outputs_;
};

} // namespace

CommandEntry cardEntry() {
    return {
        "card", "Print a card to PDF, or store its measured size",
        "swarfbook card --layout close|wide [--cut] [--paper a4|letter] --out card.pdf [--force]\n"
        "       swarfbook card --serial S | --layout close|wide --measured-bar MM\n"
        "       swarfbook card --serial S [--cut] [--paper a4|letter] --out card.pdf",
        "swarfbook card --layout close --out card.pdf --book trial-book",
        []() -> Command* { return new CardCommand; }};
}

} // namespace swarfbook::cli
