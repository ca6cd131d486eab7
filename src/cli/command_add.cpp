// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_add.h"

#include "base/errors.h"
#include "base/sha256.h"
#include "cli/given_photos.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/progress.h"
#include "cli/sample_basis_words.h"
#include "cli/second_photos.h"
#include "cli/visit_meant.h"
#include "entry/finding_words.h"
#include "entry/measure_for_book.h"
#include "entry/photo_elsewhere.h"
#include "photo/decode.h"
#include "record/photo_date.h"
#include "report/method_notes.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;
namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

/// A photo as given, and what was found on it.
struct GivenPhoto {
    fs::path file;
    Measurement measurement;
    bool toKeep = false;
    bool toMove = false; ///< it is in the book for another visit or place
    bool anew = false;   ///< it is in the book, measured without this second photo, with
                         ///< something else said of the sample or with a damaged finding
    std::vector<std::byte>
        bytes{}; ///< of its file; empty where they would have taken too much room
};

/// What the bytes of photos may take until they are kept, all together: twenty large photos. Beyond
/// that a photo is read again.
constexpr std::size_t mostHeld = std::size_t{256} << 20;

class AddCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("photo", po::value<std::vector<std::string>>(),
            "photos of one place: files, folders of them, or - for one that is piped in");
        addVisitOptions(all);
        add("place", text(),
            "where the debris was: pan, magnet, filter, tray, white-card or strained");
        add("sampling", text(),
            "how the sample was taken, such as \"whole magnet wiped\"; visits "
            "are compared only where it is the same");
        addSampleOptions(all);
        add("serial", text(),
            "of the card in the photos, where it has no printed code; its check bar is known to "
            "the book");
        add("measured-bar", text(), "the card's check bar as callipers read it, mm");
        addSecondPhotoOptions(all, "; kept in the book");
        add("move", "photos that are in the book for another visit or place come over to this one "
                    "and are measured again");
        add("keep-refused", "keep photos too that cannot be measured");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's "
            "data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("photo", -1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        if (words.count("photo") == 0)
            throw UsageError("Which photos? Name them: swarfbook add PHOTO... --place pan.");
        files_ = words["photo"].as<std::vector<std::string>>();
        asked_ = visitAsked(words);
        how_.place = placeOf(words);
        how_.basis = sampleBasisOf(words, how_.place);
        how_.serial = textOf(words, "serial");
        how_.typedBarMm = numberOf(words, "measured-bar", "79.6");
        sampling_ = textOf(words, "sampling");
        seconds_ = secondPhotoNames(words, how_.place);
        keepRefused_ = has(words, "keep-refused");
        move_ = has(words, "move");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        given_ = GivenPhotos(files_);
        requireOnePhoto(seconds_, given_.files().size());
        Book book = bookToMeasureFor(book_);
        const Visit visit = visitMeant(book, asked_);
        visit_ = visit.id;
        how_.visit = visit_;
        secondPhotos_.read(seconds_, how_);
        const AssessOptions options = assessOptions(book, how_);
        std::vector<GivenPhoto> photos;
        Progress progress(given_.files().size());
        for (const fs::path& file : given_.files()) {
            progress.next(GivenPhotos::nameOf(file));
            photos.push_back(measured(book, file));
        }
        progress.clear();
        BookTransaction transaction = book.begin();
        secondPhotos_.keep(book, how_);
        std::string told;
        bool allIn = true;
        for (const GivenPhoto& photo : photos) {
            told += photo.toKeep ? kept(book, photo, options) : turnedAway(photo);
            allIn = allIn && photo.toKeep && withSecondPhotos(photo);
        }
        transaction.commit();
        nowKept(fmt::format("What was added to visit {} is in the book.", visit_));
        std::cout << told;
        for (const std::string& note : repeatNotes(book.photos(visit_)))
            std::cerr << note << "\n";
        for (const GivenPhoto& photo : photos) {
            if (photo.toKeep)
                askOfDate(photo, visit);
            for (const std::string& caution : photo.measurement.cautions)
                std::cerr << fmt::format("swarfbook: {}: {}\n", photo.file.filename().string(),
                                         caution);
        }
        return allIn ? done : refused;
    }

  private:
    GivenPhoto measured(const Book& book, const fs::path& file) {
        auto bytes = given_.bytes(file);
        const auto known =
            bytes ? book.photoBySha256(sha256Hex(bytes.value())) : std::optional<StoredPhoto>();
        const bool elsewhere = known && (known->visitId != visit_ || known->place != how_.place);
        const bool anew =
            known && !elsewhere &&
            (isDamaged(known->measurement) || isMeasuredOtherwise(known->measurement, how_));
        if (known && !anew && !(elsewhere && move_))
            return holding({file, known->measurement, true, false, false}, std::move(*bytes));
        if (!data_)
            data_ = loadAssessData();
        data_->models.startLoading();
        PhotoFile read = photoFrom(bytes, GivenPhotos::nameOf(file));
        GivenPhoto photo{file, measureForBook(book, std::move(read), *data_, how_), true, elsewhere,
                         anew};
        if (const auto& refusal = photo.measurement.refusal)
            photo.toKeep = keepRefused_ && refusal->reason != RefusalReason::notAPhoto;
        return photo.toKeep ? holding(std::move(photo), std::move(*bytes)) : photo;
    }

    /// The photo with its bytes, as long as there is room for them.
    GivenPhoto holding(GivenPhoto photo, std::vector<std::byte> bytes) {
        if (held_ + bytes.size() <= mostHeld) {
            held_ += bytes.size();
            photo.bytes = std::move(bytes);
        }
        return photo;
    }

    [[nodiscard]] std::vector<std::byte> readAgain(const fs::path& file) const {
        auto bytes = given_.bytes(file);
        if (!bytes)
            throw ToolError(fmt::format("{} can no longer be read: {} Nothing was kept.",
                                        file.string(), bytes.error().detail));
        return std::move(*bytes);
    }

    std::string kept(Book& book, const GivenPhoto& photo, const AssessOptions& options) const {
        const bool isHeld = !photo.bytes.empty();
        const std::vector<std::byte> again =
            isHeld ? std::vector<std::byte>() : readAgain(photo.file);
        const std::string name = GivenPhotos::nameOf(photo.file);
        const std::string& sha256 = photo.measurement.photo.sha256;
        if (photo.toMove)
            takeElsewhere(book, {visit_, how_.place, how_.basis}, photo.measurement,
                          optionsText(how_, options));
        else if (photo.anew)
            book.addFinding(book.photoBySha256(sha256)->id, photo.measurement,
                            optionsText(how_, options), programVersion());
        const PhotoAdded added = book.addPhoto(
            {visit_, how_.place, name, sampling_, optionsText(how_, options), programVersion()},
            isHeld ? photo.bytes : again, photo.measurement);
        const std::string_view became = photo.toMove         ? "moved to"
                                        : photo.anew         ? "measured again,"
                                        : added.alreadyThere ? "already in this book,"
                                                             : "added to";
        return fmt::format("{}: {} visit {}, place {}: {}\n", name, became, added.photo.visitId,
                           placeWord(added.photo.place), findingInFull(added.photo.measurement));
    }

    static bool isDamaged(const Measurement& known) {
        return known.refusal && known.refusal->reason == RefusalReason::findingDamaged;
    }

    /// A photo of another day may belong to another visit.
    static void askOfDate(const GivenPhoto& photo, const Visit& visit) {
        const std::string question = dateQuestion(photo.measurement.photo.taken, visit.date);
        if (!question.empty())
            std::cerr << fmt::format(
                "swarfbook: {}: {} Is it of this visit? If it is of another one: swarfbook add "
                "--visit N {} --place {} --move. If the visit's date is wrong: swarfbook visit "
                "correct {} --date D. If the camera's clock is wrong, it may stay.\n",
                photo.file.filename().string(), question, photo.file.string(),
                placeOption(photo.measurement.place), visit.id);
    }

    /// Whether the second photos given were used; says so when one was not.
    [[nodiscard]] bool withSecondPhotos(const GivenPhoto& photo) const {
        const auto& swept = photo.measurement.afterMagnet;
        const auto& lit = photo.measurement.secondLight;
        const bool sweepUsed = !how_.afterMagnet || !swept || swept->sweep;
        const bool lightUsed = !how_.secondLight || !lit || lit->used;
        // the cautions of the last two are printed with the others
        return withCleanReference(photo) && sweepUsed && lightUsed;
    }

    [[nodiscard]] bool withCleanReference(const GivenPhoto& photo) const {
        const auto& use = photo.measurement.cleanReference;
        if (!how_.cleanReference || !use || use->used)
            return true;
        std::cerr << fmt::format(
            "swarfbook: {} was measured without the photo of the cleaned place. {}\n",
            photo.file.string(), cleanReferenceCaution(*use));
        return false;
    }

    static std::string turnedAway(const GivenPhoto& photo) {
        return fmt::format("{}: refused and not added. {}\n", GivenPhotos::nameOf(photo.file),
                           photo.measurement.refusal->detail + " " +
                               photo.measurement.refusal->advice);
    }

    std::vector<std::string> files_; ///< as typed
    GivenPhotos given_;
    VisitAsked asked_;
    std::int64_t visit_ = 0; ///< that was meant
    HowMeasured how_;
    std::string sampling_;
    SecondPhotoNames seconds_;
    SecondPhotosToKeep secondPhotos_;
    bool keepRefused_ = false;
    bool move_ = false;
    std::optional<std::string> book_;
    std::optional<AssessData> data_;
    std::size_t held_ = 0; ///< bytes of photos
};

} // namespace

CommandEntry addEntry() {
    return {"add", "Measure photos into a visit; a refused one is named and left out",
            "swarfbook add [--visit N] PHOTO|FOLDER|-... --place PLACE [options]",
            "swarfbook add --visit 1 demo-images/pan-steel-heavy.jpg --place pan --book trial-book",
            []() -> Command* { return new AddCommand; }};
}

} // namespace swarfbook::cli
