// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_check.h"

#include "assess/check_against_standard.h"
#include "base/errors.h"
#include "bench/typed.h"
#include "cli/book_output.h"
#include "cli/check_output.h"
#include "cli/check_withdrawal.h"
#include "cli/given_photos.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/progress.h"
#include "cli/terminal.h"
#include "entry/card_in_photo.h"
#include "entry/measure_for_book.h"

#include <fmt/format.h>

#include <cmath>
#include <iostream>

namespace po = boost::program_options;
namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

/// Limits of a size as a standard deviation: anything between them is as likely.
Millimetres uniform(Millimetres half) {
    return half / std::sqrt(3.0);
}

StandardKind thingOf(const std::string& name) {
    try {
        return standardFromName(name);
    } catch (const std::invalid_argument&) {
        throw UsageError(fmt::format("\"{}\" is not something to check by. Say --thing shank, "
                                     "wire, strip or ball.",
                                     name));
    }
}

class CheckCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("photo", po::value<std::vector<std::string>>(),
            "photos of the thing lying in the card's window: files, folders of them, or - for one "
            "that "
            "is piped in");
        add("known-size", text(),
            "its diameter, or a strip's width: 2.00mm, 0.125in, 5/64in; typed as finely as it is "
            "known");
        add("thing", text(), "shank, wire, strip or ball (else found from the photo)");
        add("thickness", text(), "of a strip, such as 0.50mm (else 0 to 1 mm)");
        add("tolerance", text(),
            "the known size may be off by this, such as 0.01mm (else half of its last digit)");
        add("by", text(),
            "who took the photos, to keep people's readings apart; --withdraw: who withdraws it");
        add("phone", text(), "the phone's name in the shop (else its model, as a number)");
        add("serial", text(),
            "of the card, where it has no printed code; its check bar is known to the book");
        add("measured-bar", text(), "the card's check bar as callipers read it, mm");
        add("cut", "the card's window is cut out");
        add("list", "show the readings in the book and how well they repeat");
        add("withdraw", text(),
            "take the reading of this number in --list out of every count, as of another thing");
        add("why", text(), "--withdraw: why");
        add("undo", "--withdraw: bring it back");
        add("no-book", "only read, keep nothing");
        add("json", "write the readings as a document");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("photo", -1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        list_ = has(words, "list");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
        if (list_) {
            allowOnly(words, "check --list", {"list", "json", "book"});
            return;
        }
        if (has(words, "withdraw") || has(words, "undo") || has(words, "why")) {
            withdrawal_ = checkWithdrawalFrom(words);
            return;
        }
        if (words.count("photo") == 0 || !has(words, "known-size"))
            throw UsageError("Lay a thing of known size in the card's window, photograph it and "
                             "say how large it is: swarfbook check --known-size 2.00mm PHOTO. "
                             "swarfbook check --list shows the readings so far.");
        typed_ = words["photo"].as<std::vector<std::string>>();
        parseThing(words);
        how_.serial = textOf(words, "serial");
        how_.typedBarMm = numberOf(words, "measured-bar", "79.6");
        cut_ = has(words, "cut");
        by_ = textOf(words, "by");
        phone_ = textOf(words, "phone");
        keep_ = !has(words, "no-book");
        if (!keep_ && !how_.serial.empty())
            throw UsageError("The card's check bar is kept in the book: with --no-book give "
                             "--measured-bar MM in place of --serial.");
    }

    int run() override {
        if (list_)
            return showList();
        if (withdrawal_) {
            Book book = bookToWrite(book_);
            const std::string said = withdrawCheck(book, *withdrawal_);
            nowKept(said);
            std::cout << said << "\n";
            return done;
        }
        const GivenPhotos given(typed_);
        std::optional<Book> book;
        if (keep_)
            book = bookToMeasureFor(book_, IfNoBook::startOne);
        AssessOptions options;
        if (book)
            options = assessOptions(*book, how_);
        else if (how_.typedBarMm)
            options.measuredBar = Millimetres(*how_.typedBarMm);
        options.windowCutOut = cut_;
        const AssessData data = loadAssessData();
        std::vector<StandardCheck> checks;
        Progress progress(given.files().size());
        for (const fs::path& photo : given.files()) {
            progress.next(GivenPhotos::nameOf(photo));
            checks.push_back(checkAgainstStandard(given.read(photo), thing_, data, options));
            StandardCheck& check = checks.back();
            requireSameCard(GivenPhotos::nameOf(photo), check.card, how_.serial);
            if (std::string caution = cardCaution(book ? &*book : nullptr, check.card);
                book && !caution.empty())
                check.cautions.push_back(std::move(caution));
        }
        progress.clear();
        if (book) {
            keepIn(*book, checks);
            nowKept("The readings are in the book.");
        }
        const int code = tell(checks);
        if (book && code == done)
            talk()
                << "Kept in the book; swarfbook check --list shows all readings. If the size was "
                   "typed wrongly, check the same photo again; a reading of another thing is "
                   "withdrawn by its number there: swarfbook check --withdraw N --why TEXT.\n";
        return code;
    }

  private:
    void parseThing(const ParsedOptions& words) {
        const Typed<Millimetres> size = parseLength(textOf(words, "known-size"));
        known_ = size.typed;
        thing_.size.value = size.value;
        thing_.size.standardUncertainty =
            uniform(has(words, "tolerance") ? parseLength(textOf(words, "tolerance")).value
                                            : halfLastDigit(size));
        if (has(words, "thing"))
            thing_.kind = thingOf(textOf(words, "thing"));
        if (!has(words, "thickness"))
            return;
        if (thing_.kind != StandardKind::strip)
            throw UsageError("Only a strip has a thickness of its own: say --thing strip too, or "
                             "leave --thickness away.");
        thing_.thickness = parseLength(textOf(words, "thickness")).value;
    }

    int showList() const {
        const Book book = bookToRead(book_);
        const auto checks = book.checks();
        if (json_) {
            std::cout << checksJson(checks).dump() << "\n";
            return done;
        }
        const std::string withdrawn = withdrawnLines("reading", book.withdrawnChecks());
        if (checks.empty()) {
            std::cout << withdrawn;
            throw EvidenceRefused("No thing of known size has been checked in this book. Lay one "
                                  "in the card's window and photograph it: swarfbook check "
                                  "--known-size 2.00mm PHOTO.");
        }
        std::cout << checksText(checks) << withdrawn;
        return done;
    }

    void keepIn(Book& book, const std::vector<StandardCheck>& checks) const {
        BookTransaction transaction = book.begin();
        for (const StandardCheck& check : checks)
            if (check.reading)
                book.addCheck(toStore(check));
        transaction.commit();
    }

    [[nodiscard]] StoredCheck toStore(const StandardCheck& check) const {
        StoredCheck stored;
        stored.photoSha256 = check.photo.sha256;
        stored.knownText = known_;
        stored.knownMm = thing_.size.value.value();
        stored.knownUMm = thing_.size.standardUncertainty.value();
        stored.thing = check.reading->kind ? standardName(*check.reading->kind) : "";
        stored.readingMm = check.reading->size.value.value();
        stored.readingUMm = check.reading->size.standardUncertainty.value();
        stored.seenBy = by_;
        stored.phone = phone_;
        if (phone_.empty() && !check.photo.cameraMark.empty())
            stored.phone = "camera " + check.photo.cameraMark;
        stored.layout = check.card->layout;
        stored.serial = check.card->serial;
        stored.printScaleChecked = check.card->printScale.checked;
        stored.programVersion = programVersion();
        stored.at = check.reading->centre;
        return stored;
    }

    int tell(const std::vector<StandardCheck>& checks) const {
        int code = done;
        for (const StandardCheck& check : checks) {
            std::cout << (json_ ? checkJson(check).dump() + "\n" : checkText(check, known_));
            if (!check.reading)
                code = refused;
        }
        if (code == refused)
            std::cerr
                << "swarfbook: not every photo gave a reading; what to do stands with each.\n";
        return code;
    }

    std::vector<std::string> typed_;
    std::string known_;
    CheckStandard thing_;
    HowMeasured how_;
    std::string by_, phone_;
    bool cut_ = false, list_ = false, json_ = false, keep_ = true;
    std::optional<CheckWithdrawal> withdrawal_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry checkEntry() {
    return {"check", "Check card and phone against a known size, or list the checks",
            "swarfbook check --known-size SIZE PHOTO... [--thing THING] [--by NAME] [options]\n"
            "       swarfbook check --list\n"
            "       swarfbook check --withdraw N --why TEXT [--by WHO] | --undo",
            "swarfbook check --known-size 3.00mm demo-images/shank-3mm.jpg --thing shank --book "
            "trial-book",
            []() -> Command* { return new CheckCommand; }};
}

} // namespace swarfbook::cli
