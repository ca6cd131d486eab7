// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_measure.h"

#include "assess/after_magnet.h"
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "assess/second_light.h"
#include "base/errors.h"
#include "base/outputs.h"
#include "base/text.h"
#include "cli/book_if_there.h"
#include "cli/given_photos.h"
#include "cli/parsed_options.h"
#include "cli/progress.h"
#include "cli/sample_basis_words.h"
#include "cli/second_photos.h"
#include "cli/terminal.h"
#include "entry/card_in_photo.h"
#include "entry/known_magnet.h"
#include "entry/measure_for_book.h"
#include "judgement/coat_of_magnet.h"
#include "report/annotated_photo.h"
#include "report/measurement_text.h"
#include "report/picture_bytes.h"
#include "report/size_words.h"

#include <fmt/format.h>

#include <filesystem>
#include <iostream>
#include <malloc.h>
#include <set>
#include <utility>

namespace swarfbook::cli {
namespace {

namespace po = boost::program_options;
namespace fs = std::filesystem;

class MeasureCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description out("options");
        addWhatIsShown(out);
        addSampleOptions(out);
        addMagnetOptions(out);
        auto add = out.add_options();
        add("json", "write the measurement document, one line a photo");
        add("annotated", po::value<std::string>(),
            "also write the photo with what was measured drawn in: a .jpg or .png file, or a "
            "folder for several photos");
        add("outlines", "with --annotated: draw no letters, only the outlines");
        add("force", "replace an annotated photo that is there already");
        add("book", po::value<std::string>(),
            "the book that knows the card's check bar by the code on the card (else "
            "$SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return out;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description out;
        out.add("photo", -1);
        return out;
    }

    void parse(const ParsedOptions& words) override {
        if (!has(words, "photo"))
            throw UsageError("Give at least one photo, for example: swarfbook measure pan.jpg "
                             "--place pan");
        typed_ = words["photo"].as<std::vector<std::string>>();
        options_.place = placeOf(words);
        options_.basis = sampleBasisOf(words, options_.place);
        options_.magnet = knownMagnetTyped(maybeTextOf(words, "magnet-form"),
                                           maybeTextOf(words, "magnet-size"), options_.place);
        options_.serial = textOf(words, "serial");
        if (has(words, "cut") && has(words, "whole"))
            throw UsageError(
                "A window is either cut out or whole: give --cut or --whole, not both.");
        if (has(words, "cut") || has(words, "whole"))
            options_.windowCutOut = has(words, "cut");
        if (const auto bar = numberOf(words, "measured-bar", "79.6"))
            options_.measuredBar = Millimetres(*bar);
        seconds_ = secondPhotoNames(words, options_.place);
        book_ = maybeTextOf(words, "book");
        options_.barOfCard = barsOfBookThere(book_);
        json_ = has(words, "json");
        sameSample_ = has(words, "same-sample");
        annotated_ = textOf(words, "annotated");
        drawing_.letters = !has(words, "outlines");
        if (!drawing_.letters && annotated_.empty())
            throw UsageError("--outlines goes with --annotated FILE.");
        if (has(words, "force"))
            outputs_ = Outputs(IfThere::replace);
    }

    int run() override {
        given_ = GivenPhotos(typed_);
        if (sameSample_ && files().size() < 2)
            throw UsageError("One photo cannot repeat itself: give two or more photos of the same "
                             "sample with --same-sample.");
        requireOnePhoto(seconds_, files().size());
        if (!annotated_.empty())
            planPictures();
        const AssessData data = loadAssessData();
        data.models.startLoading();
        if (!seconds_.cleanReference.empty())
            options_.cleanReference = typedCleanReference(readPhoto(seconds_.cleanReference));
        if (!seconds_.afterMagnet.empty())
            after_ = typedAfterMagnet(readPhoto(seconds_.afterMagnet));
        if (!seconds_.secondLight.empty())
            options_.secondLight = typedSecondLight(readPhoto(seconds_.secondLight));
        int code = done;
        std::vector<DebrisFinding> findings;
        Progress progress(files().size());
        for (std::size_t i = 0; i < files().size(); ++i) {
            progress.next(GivenPhotos::nameOf(files()[i]));
            const Measurement m = measureOne(i, data, progress);
            if (m.refusal || (m.cleanReference && !m.cleanReference->used) ||
                (m.afterMagnet && !m.afterMagnet->sweep) || (m.secondLight && !m.secondLight->used))
                code = refused;
            if (!m.refusal && !m.debris->shownOnly)
                findings.push_back(*m.debris);
        }
        if (sameSample_)
            tellTogether(findings);
        return code;
    }

  private:
    static void addWhatIsShown(po::options_description& options) {
        auto add = options.add_options();
        add("photo", po::value<std::vector<std::string>>(),
            "JPEG, PNG or HEIC files, folders of them, or - for one that is piped in");
        add("place", po::value<std::string>()->default_value("white-card"),
            "where the debris lies: pan, magnet, filter, tray, white-card or strained");
        add("cut", "the card's window is cut out (pan, filter and tray: always so)");
        add("whole",
            "the card's window is white paper (white-card, magnet and strained: always so)");
        add("measured-bar", po::value<std::string>(),
            "length in mm of this very card's check bar, as callipers read it");
        add("serial", po::value<std::string>(),
            "serial number of a card without a printed code, to stand in the result");
        add("same-sample",
            "the photos show one and the same sample: also say what they show together, "
            "and how well it repeats");
        addSecondPhotoOptions(options);
    }

    static void addMagnetOptions(po::options_description& options) {
        auto add = options.add_options();
        add("magnet-form", po::value<std::string>(), "place magnet: ring, disc or block");
        add("magnet-size", po::value<std::string>(),
            "place magnet: its diameter, or the longer side of a block, such as 37mm: its height "
            "above the card follows from it and is estimated otherwise");
    }

    [[nodiscard]] const std::vector<fs::path>& files() const { return given_.files(); }

    [[nodiscard]] bool intoFolder() const {
        std::error_code none;
        return files().size() > 1 || fs::is_directory(annotated_, none);
    }

    /// Names every annotated photo, photos of one name apart, and refuses what may not be written.
    void planPictures() {
        if (!intoFolder())
            requirePictureName(annotated_);
        std::error_code none;
        if (files().size() > 1 && !fs::is_directory(annotated_, none))
            throw UsageError(fmt::format("{} photos cannot go into one picture: give a folder that "
                                         "exists to --annotated.",
                                         files().size()));
        for (const fs::path& photo : files())
            outputs_.addInput(photo);
        outputs_.addInput(seconds_.cleanReference);
        outputs_.addInput(seconds_.afterMagnet);
        outputs_.addInput(seconds_.secondLight);
        std::set<std::string> taken; // in lower case: some disks take A and a for the same
        for (const fs::path& photo : files()) {
            const std::string stem = fs::path(GivenPhotos::nameOf(photo)).stem().string();
            std::string name = stem + "-annotated.jpg";
            for (int number = 2; !taken.insert(lowered(name)).second; ++number)
                name = fmt::format("{}-{}-annotated.jpg", stem, number);
            pictures_.push_back(intoFolder() ? fs::path(annotated_) / name : fs::path(annotated_));
            outputs_.plan(pictures_.back());
        }
    }

    void tellTogether(const std::vector<DebrisFinding>& findings) const {
        if (findings.size() < 2) {
            std::cerr << "swarfbook: fewer than two of the photos could be counted, so nothing can "
                         "be said of how well they repeat.\n";
            return;
        }
        const RepeatedFinding together = combineRepeats(findings);
        std::cout << (json_ ? toJson(together).dump() + "\n" : repeatsText(together));
    }

    Measurement measureOne(std::size_t number, const AssessData& data, Progress& progress) {
        const fs::path& file = files()[number];
        PhotoFile photo = given_.read(file);
        const bool toDraw = !annotated_.empty() && photo.photo;
        cv::Mat upright = toDraw ? photo.photo->bgr : cv::Mat();
        Measurement m = assessPhoto(std::move(photo), data, options_);
        if (after_)
            assessAfterMagnet(m, PhotoFile(*after_), data, options_);
        progress.clear();
        requireSameCard(file.string(), m.card, options_.serial);
        askOfCard(m);
        if (json_)
            std::cout << toJson(m).dump() << "\n";
        if (m.refusal) {
            std::cerr << alarming("swarfbook:")
                      << fmt::format(" {} was not measured. {} {}\n", file.string(),
                                     m.refusal->detail, m.refusal->advice);
            return m;
        }
        if (!json_)
            std::cout << measurementText(m, coatClassOf(m));
        if (m.afterMagnet && !m.afterMagnet->sweep)
            std::cerr << fmt::format("swarfbook: {} was measured. {}\n", file.string(),
                                     afterMagnetCaution(*m.afterMagnet));
        if (m.secondLight && !m.secondLight->used)
            std::cerr << fmt::format("swarfbook: {} was measured. {}\n", file.string(),
                                     secondLightCaution(*m.secondLight));
        if (m.cleanReference && !m.cleanReference->used)
            std::cerr << fmt::format(
                "swarfbook: {} was measured without the photo of the cleaned place. {}\n",
                file.string(), cleanReferenceCaution(*m.cleanReference));
        if (!annotated_.empty())
            writeAnnotated(std::move(upright), m, pictures_[number]);
        return m;
    }

    /// The coat in the trade's words; "" where no magnet was measured.
    static std::string coatClassOf(const Measurement& m) {
        if (!m.magnet)
            return "";
        return coatClassSentence(*m.magnet,
                                 loadSuggestionModel(dataFolder() / "models" / "suggestion.json"));
    }

    /// Adds what is to be done where the card's check bar is not known.
    void askOfCard(Measurement& m) const {
        if (options_.measuredBar || cardCaution(nullptr, m.card).empty())
            return;
        const std::optional<Book> book = bookIfThere(book_);
        m.cautions.push_back(cardCaution(book ? &*book : nullptr, m.card));
    }

    void writeAnnotated(cv::Mat upright, const Measurement& m, const fs::path& out) {
        malloc_trim(0); // the picture's file takes the room that measuring a large photo has left
        outputs_.write(out, pictureBytes(out, annotatedPhoto(std::move(upright), m, drawing_)));
        talk() << fmt::format("Saved {}: the annotated photo\n", out.string());
        nowKept(fmt::format("The annotated photo is in {}.", out.string()));
    }

    std::vector<std::string> typed_;
    GivenPhotos given_;
    AssessOptions options_;
    bool json_ = false, sameSample_ = false;
    std::string annotated_;
    SecondPhotoNames seconds_;
    std::shared_ptr<const PhotoFile> after_; ///< null unless --after-magnet is given
    std::optional<std::string> book_;
    AnnotationOptions drawing_;
    std::vector<fs::path> pictures_; ///< one a photo, when they are asked for
    Outputs outputs_;
};

} // namespace

CommandEntry measureEntry() {
    return {"measure", "Measure the debris in photos against the card in them",
            "swarfbook measure PHOTO|FOLDER|-... [--place PLACE] [--blank PHOTO] "
            "[--after-magnet PHOTO|--second-light PHOTO] [--json] "
            "[--annotated FILE [--outlines] [--force]]",
            "swarfbook measure demo-images/history-4.jpg --place white-card --annotated "
            "history-4-annotated.png",
            [] { return static_cast<Command*>(new MeasureCommand()); }};
}

} // namespace swarfbook::cli
