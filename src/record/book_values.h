// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "base/shown_units.h"
#include "base/units.h"
#include "particles/flush_decay.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The content of a book, as values. Every id is the book's own number, 1, 2, ...; it never changes
/// and is never given twice. Empty text means "not said"; absent numbers mean "not known", never
/// zero. Dates are "YYYY-MM-DD", moments "YYYY-MM-DDThh:mm:ssZ" (UTC).
namespace swarfbook {

/// A vehicle: what comes back to the shop.
struct Vehicle {
    std::int64_t id = 0;
    std::string label; ///< the shop's choice; unique whatever its case (A to Z)
    std::string plate; ///< private
    std::string vin;   ///< private
    std::string note;
    std::string unit; ///< the transmission in it, as the shop calls it
};

/// A vehicle as a list shows it.
struct VehicleInShort {
    Vehicle vehicle;
    std::size_t visits = 0;
    std::string lastVisit; ///< date, "" when there is none
};

/// One time a vehicle's transmission is looked into. `id` is the number of `--visit N`.
struct Visit {
    std::int64_t id = 0;
    std::int64_t vehicleId = 0;
    std::string date;
    std::optional<double> odometerKm;
    bool odometerReplaced = false; ///< the odometer starts anew here, so less than before is right
    std::string complaint;         ///< in the customer's words
    std::string lookedBy;
    std::optional<double> sinceCleanKm; ///< distance since the last documented clean
    std::string lastClean;              ///< date of the last documented clean, "" when not known
};

/// Who changed an entry, and why; "" where not said.
struct ChangeReason {
    std::string by, why;
};

/// A correction by hand of one piece in a photo, at a place on the card (true mm).
struct PieceCorrection {
    PointOnCard at;
    std::string said; ///< a type ("lining", ...), "not debris" or "left over" (of assembly)
    ChangeReason reason;
    std::string madeAt;
};

/// A correction of a piece together with the finding of the photo. If the newest finding has no
/// piece at that place, there is no number.
struct CorrectedPiece {
    PieceCorrection correction;
    std::optional<int> piece; ///< its number in the finding
    std::string measuredAs;   ///< "bright metal", "" without a piece
};

/// What a hand says of how many pieces there are, at the places (true mm on the card) of finds as
/// they were measured: one place is a find that is two pieces, several are finds that are one.
struct PieceRegrouping {
    std::vector<PointOnCard> at;
    ChangeReason reason;
    std::string madeAt;
    [[nodiscard]] bool joins() const { return at.size() > 1; }
};

/// A regrouping together with the finding of the photo. If the newest finding does not have all of
/// its finds, there are no numbers.
struct RegroupedPieces {
    PieceRegrouping said;
    std::vector<int> measured; ///< numbers of the finds
    std::vector<int> now;      ///< of the pieces that they are: one, or two
};

/// One photo of a visit with its newest finding. The file itself: Book::originalPhoto(sha256).
struct StoredPhoto {
    std::int64_t id = 0;
    std::int64_t visitId = 0;
    Place place = Place::pad;
    std::string sha256;
    std::string fileName; ///< its name when it was added, without folders
    std::string sampling; ///< how the sample was taken; compare only like with like
    std::string addedAt;
    std::string options;        ///< options of the newest finding, JSON
    std::string programVersion; ///< program that made the newest finding
    std::string measuredAt;
    Measurement measurement; ///< newest finding, card->mapping restored, pieces as corrected
    std::vector<CorrectedPiece> corrected{};  ///< pieces corrected by hand
    std::vector<RegroupedPieces> regrouped{}; ///< pieces joined and divided by hand
};

/// One finding of a photo, the newest or one before it.
struct StoredFinding {
    std::int64_t id = 0;
    std::int64_t photoId = 0;
    std::string options; ///< JSON
    std::string programVersion;
    std::string measuredAt;
    Measurement measurement;
};

/// The content of an entry before it was corrected: a vehicle's or visit's fields, or a photo's
/// visit and place.
struct Correction {
    std::string before; ///< JSON object
    std::string correctedAt;
};

/// Settings of the workshop; printed on every report. "" if not set.
struct WorkshopSettings {
    std::string workshop, address, telephone;
    std::string paper;         ///< "a4", "letter" or ""
    std::string distance{};    ///< "km", "mi" or ""
    std::string temperature{}; ///< "C", "F" or ""
    std::string volume{};      ///< "l", "qt" or ""
    std::string dates{};       ///< one of dateOrderWords(), or ""
};

/// The units and the order of dates that the settings ask for.
ShownUnits shownBy(const WorkshopSettings& settings);

/// A visit, photo, flush or reading that is left out of every count. It stays in the book.
struct Withdrawal {
    std::int64_t number = 0; ///< of the visit, photo, flush or reading
    ChangeReason reason;
    std::string at;
};

/// A vehicle that is left out of every list and count. It stays in the book.
struct WithdrawnVehicle {
    Vehicle vehicle;
    ChangeReason reason;
    std::string at;
};

/// Something typed in at a visit: kind and JSON as bench/observation.h defines them.
struct StoredObservation {
    std::int64_t id = 0;
    std::int64_t visitId = 0;
    std::string kind;
    std::string json;
    std::string recordedAt;
    std::string by{};                       ///< who observed it, "" = whoever looked at the visit
    std::optional<std::int64_t> corrects{}; ///< the earlier entry that this one replaces
};

/// Whether a photo of work shows the part as it was found or as it was left.
enum class WorkMoment { before, after };
/// "before" or "after", as it is stored, typed and printed.
std::string_view workMomentWord(WorkMoment moment);

/// A photo of the work that an observation records. It is not measured. The file itself:
/// Book::originalBytes(sha256).
struct WorkPhoto {
    std::int64_t id = 0;
    std::int64_t observationId = 0;
    WorkMoment moment = WorkMoment::before;
    std::string sha256;
    std::string fileName; ///< its name when it was added, without folders
    std::string addedAt;
};

/// The data of a photo of work when it is put into the book.
struct NewWorkPhoto {
    std::int64_t observationId = 0;
    WorkMoment moment = WorkMoment::before;
    std::string fileName; ///< without folders
};

/// A visit with a known outcome, as it was judged, for the track record. The words come from the
/// judgement (judgement/learned.h); the book keeps them without interpreting them.
struct JudgedCase {
    std::int64_t visitId = 0;
    std::string outcome; ///< what the evidence points to
    std::string pattern; ///< the evidence in broad words
    std::string held;    ///< "fixed", "came-back" or "not-known"
    bool asSuggested = true;
};

/// The judged visits with an outcome that the book keeps, and those that must be judged anew.
struct JudgedCases {
    std::string rules;     ///< SHA-256 of the rules and program that judged
    std::string bookState; ///< state of the book when it was asked; changes with every entry
    std::vector<JudgedCase> kept;
    std::vector<std::int64_t> missing; ///< numbers of visits
};

/// A flush of one part that begins: the clean tray, photographed with the card before the first
/// pass, is the background of every pass.
struct NewFlush {
    std::int64_t visitId = 0;
    std::string part;                               ///< "solenoid A"
    std::string traySha256{};                       ///< as kept by keepCleanReference; "" for none
    std::optional<Measurement> tray = std::nullopt; ///< finding of that photo, measured by itself
};

/// One pass of a flush: the photo of what it washed into the tray.
struct StoredPass {
    std::int64_t photoId = 0;
    FlushStep step = FlushStep::wash;
    std::string recordedAt;
};

/// A flush of one part, as it stands.
struct StoredFlush {
    std::int64_t id = 0;
    std::int64_t visitId = 0;
    std::string part;
    std::string traySha256;          ///< "" if there is no photo of the clean tray
    std::optional<Measurement> tray; ///< its own finding; nothing if that is damaged
    std::string startedAt;
    std::vector<StoredPass> passes; ///< in the order they were done; withdrawn photos are left out
};

/// A printed reference card, and the measured length of its check bar.
struct PrintedCard {
    std::string serial;
    std::string layout;                  ///< "close" or "wide"
    std::optional<double> measuredBarMm; ///< by callipers; absent: nobody measured it
    std::string printedAt;
};

/// The reading of a thing of known size in a photo, which checks a card and a phone. The photo
/// itself is not kept.
struct StoredCheck {
    std::int64_t id = 0;
    std::string photoSha256;
    std::string knownText; ///< as typed, "5/64in"
    double knownMm = 0.0, knownUMm = 0.0;
    std::string thing; ///< "shank", ..., "" if not given
    double readingMm = 0.0, readingUMm = 0.0;
    std::string seenBy; ///< who took the photo, "" when not said
    std::string phone;  ///< the user's label, or "camera 3f2a91c0" by model, "" when not known
    std::string layout, serial; ///< of the card; serial "" when not given
    bool printScaleChecked = false;
    std::string programVersion;
    std::string checkedAt;
    std::optional<PointOnCard> at{}; ///< where the thing lay; nothing in readings of older books

    /// Reading less known size, and whether it lies within two standard uncertainties of both.
    [[nodiscard]] double offMm() const { return readingMm - knownMm; }
    [[nodiscard]] double expandedMm() const;
    [[nodiscard]] bool agrees() const;
};

/// The data of a photo when it is put into the book.
struct NewPhoto {
    std::int64_t visitId = 0;
    Place place = Place::pad;
    std::string fileName; ///< without folders
    std::string sampling;
    std::string options;        ///< JSON object: how it was measured
    std::string programVersion; ///< of the program that measured it
};

/// The result of adding a photo.
struct PhotoAdded {
    StoredPhoto photo;
    bool alreadyThere = false; ///< same bytes, visit and place: nothing changed
};

} // namespace swarfbook
