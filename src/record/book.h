// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"
#include "record/book_transaction.h"
#include "record/book_values.h"

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

class Database;
struct BookState;

/// An original photo of the book is missing or no longer what was put in.
class PhotoLost : public ToolError {
  public:
    using ToolError::ToolError;
};

/// Where the book lies: `given` (--book), else $SWARFBOOK_BOOK, else $XDG_DATA_HOME/swarfbook, else
/// ~/.local/share/swarfbook. Throws UsageError when none of them says anything.
/// Checked: tests/record/book_folder_test.cpp.
std::filesystem::path bookFolder(const std::optional<std::string>& given);

/// Whether Book::open may start a book where there is none.
enum class IfNoBook { startOne, refuse };

/// One workshop's book: `book.db` (SQLite) and the original photos, `photos/<first two hex digits
/// of the SHA-256>/<SHA-256>.<jpg, png, heic or photo>`, which are never changed once they are
/// in.
///
/// Every member throws ToolError (exit 3) when the world fails (book locked, read-only, disk full,
/// damaged, of a newer program) and UsageError (exit 2) when what is asked makes no sense; both say
/// what to do. Each writing member is one transaction, or part of the one that begin() opened.
/// A kill at any moment leaves the book before or after a whole transaction. One thread a Book.
/// Checked: tests/record (all of it), tests/cli/book_test.cpp.
class Book {
  public:
    /// What a backup copied or brought back, and the sentences on what could not be, or is damaged.
    struct Copied {
        std::size_t photos = 0, charts = 0;
        std::vector<std::string> troubles;
    };

    /// Opens the book in `folder` to write to it, bringing an older one to the present schema and
    /// closing what other users could read.
    static Book open(const std::filesystem::path& folder, IfNoBook ifNone = IfNoBook::startOne);
    /// Opens the book to be read alone: nothing of it is written but what keepJudgedCases keeps,
    /// and it may lie on a disk or in a folder that cannot be written. What was committed is seen,
    /// in book.db-wal too. An older one is read as a copy in memory that is brought to the present
    /// schema. UsageError when there is none. While a book cannot be written from here, no one else
    /// is to write it either. Closes it too. Checked: tests/record/book_reading_test.cpp.
    static Book openForReading(const std::filesystem::path& folder);
    /// A book of its own in memory, for trials: the photos' findings are kept, their files are not.
    static Book inMemory();
    Book(Book&&) noexcept;
    Book& operator=(Book&&) noexcept;
    ~Book();

    /// Lets every transaction from here on wait so long for other writers.
    void waitUpTo(std::chrono::milliseconds longest);
    /// Whom to tell, a sentence at a time: what cannot be read and is left out (each once), and
    /// that another writer is waited for. Nobody is told until then.
    void talkTo(std::function<void(const std::string&)> say);
    /// Tells it, unless the same was told before.
    void tell(const std::string& sentence) const;
    /// Whether other users could read it until opening it closed it to them.
    [[nodiscard]] bool wasOpenToOthers() const { return wasOpenToOthers_; }

    /// Starts a transaction over several members' work; waits a few seconds for other writers.
    [[nodiscard]] BookTransaction begin();
    /// The folder it lies in; empty in memory.
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

    /// Adds a vehicle; `id` is ignored. UsageError: label empty, taken, too long or with control
    /// characters. @return it with its id.
    Vehicle addVehicle(const Vehicle& vehicle);
    /// Says which unit a vehicle has that was added without. UsageError when it has one already:
    /// what was said before is not overwritten. @return the vehicle as it now is.
    Vehicle nameUnit(const std::string& label, const std::string& unit);
    /// Puts a vehicle's label, plate, VIN, note or unit right; `id` says which. What it said before
    /// is kept; a withdrawn vehicle stays withdrawn. Checks and UsageErrors as addVehicle. @return
    /// it as it now is.
    Vehicle correctVehicle(const Vehicle& vehicle, const ChangeReason& reason);
    [[nodiscard]] std::vector<Correction> correctionsOfVehicle(std::int64_t id) const;
    /// The number of the vehicle of this label, whether it is withdrawn or not. UsageError as
    /// vehicleByLabel when there is none.
    [[nodiscard]] std::int64_t vehicleNumber(const std::string& label) const;
    [[nodiscard]] std::vector<Vehicle> vehicles() const; ///< by label
    /// All vehicles by label, each with how many visits it has and when the last was.
    [[nodiscard]] std::vector<VehicleInShort> vehiclesInShort() const;
    /// UsageError when it was withdrawn or, naming labels that are near (base/near_words.h), when
    /// there is none.
    [[nodiscard]] Vehicle vehicleByLabel(const std::string& label) const;
    /// UsageError when the book has no such number, or when it was withdrawn.
    [[nodiscard]] Vehicle vehicle(std::int64_t id) const;
    /// The vehicle that a visit, an observation or a photo was last added for; nothing as long as
    /// there is no visit. Checked: tests/record/book_visits_test.cpp.
    [[nodiscard]] std::optional<std::int64_t> vehicleLastUsed() const;

    /// Adds a visit; `id` is ignored. UsageError: date impossible, in the future or (unless
    /// `allowEarlier`) before the vehicle's last visit; odometer negative, absurd or against the
    /// neighbouring visits'. @return it with its id, and with the distance since the last clean
    /// where that can be told: `lastClean` is the day of a visit, and both odometers are known.
    Visit addVisit(const Visit& visit, bool allowEarlier = false);
    /// Puts a visit right; `id` says which. With another `vehicleId` it moves to that vehicle, with
    /// all its photos and observations. What it said before is kept as a Correction. Checks and
    /// UsageErrors as addVisit, among the visits of the vehicle it is then of. @return it as it now
    /// is.
    Visit correctVisit(const Visit& visit, bool allowEarlier = false);
    [[nodiscard]] std::vector<Correction>
    correctionsOfVisit(std::int64_t id) const;                             ///< oldest first
    [[nodiscard]] std::vector<Visit> visits(std::int64_t vehicleId) const; ///< oldest first
    [[nodiscard]] std::vector<Visit> allVisits() const; ///< of all vehicles, newest first
    /// UsageError when the book has no such number, or when it was withdrawn.
    [[nodiscard]] Visit visit(std::int64_t id) const;

    /// Takes a vehicle, visit, photo, flush or reading of a known size that should not be there out
    /// of every list, count and judgement; it stays in the book with the reason. UsageError: no
    /// such entry, withdrawn already, no reason, or a vehicle with a visit or a flush with a pass
    /// that is not withdrawn. Checked: tests/record/book_withdrawals_test.cpp.
    void withdrawVehicle(std::int64_t id, const ChangeReason& reason);
    void withdrawVisit(std::int64_t id, const ChangeReason& reason);
    void withdrawPhoto(std::int64_t id, const ChangeReason& reason);
    void withdrawFlush(std::int64_t id, const ChangeReason& reason);
    void withdrawCheck(std::int64_t id, const ChangeReason& reason);
    /// Puts it back as it was. UsageError: it is not withdrawn, or a visit's vehicle or a photo's
    /// flush is.
    void bringBackVehicle(std::int64_t id, const ChangeReason& reason);
    void bringBackVisit(std::int64_t id, const ChangeReason& reason);
    void bringBackPhoto(std::int64_t id, const ChangeReason& reason);
    void bringBackFlush(std::int64_t id, const ChangeReason& reason);
    void bringBackCheck(std::int64_t id, const ChangeReason& reason);
    [[nodiscard]] std::vector<WithdrawnVehicle> withdrawnVehicles() const; ///< by label
    [[nodiscard]] std::vector<Withdrawal> withdrawnVisits(std::int64_t vehicleId) const;
    [[nodiscard]] std::vector<Withdrawal> withdrawnPhotos(std::int64_t visitId) const;
    [[nodiscard]] std::vector<Withdrawal> withdrawnFlushes(std::int64_t visitId) const;
    [[nodiscard]] std::vector<Withdrawal> withdrawnChecks() const;

    /// Puts a photo's bytes and its finding into the book.
    /// @param bytes        of the original file; kept as they are.
    /// @param measurement  of these bytes (its photo.sha256 must be theirs, else ToolError).
    /// UsageError: the photo is in the book for another visit or place, or was withdrawn.
    PhotoAdded addPhoto(const NewPhoto& photo, std::span<const std::byte> bytes,
                        const Measurement& measurement);
    /// Takes a photo that was added to the wrong visit or place over to the right one; what was
    /// said before is kept as a Correction. Its finding is of the old place: add one of the new.
    void movePhoto(const std::string& sha256, std::int64_t visitId, Place place);
    [[nodiscard]] std::vector<Correction>
    correctionsOfPhoto(std::int64_t id) const; ///< oldest first
    /// Keeps what a hand says of a piece of a photo, beside the measurement: from then on photos()
    /// gives the piece as corrected, with its counts, and all that is judged of it follows. An
    /// empty `said` takes the correction of that place back. UsageError: no such photo, no piece of
    /// the newest finding at that place, a word that is not known, or nothing to take back.
    /// Checked: tests/record/piece_corrections_test.cpp.
    void correctPiece(std::int64_t photoId, const PieceCorrection& correction);
    /// Keeps that finds of a photo are one piece (several places) or one is two (one place), beside
    /// the measurement: photos() gives the pieces so from then on, and all that is judged of them
    /// follows. A piece that was joined before joins with all its parts, and a part of one that was
    /// divided can be divided again. UsageError: no such photo,
    /// no piece at a place, one place of several, finds that lie farther apart than the longest of
    /// them is long, one that cannot be divided, or, to be joined, that a hand divided or, to be
    /// divided, joined.
    /// Checked: tests/record/piece_regroupings_test.cpp.
    void regroupPieces(std::int64_t photoId, const PieceRegrouping& regrouping);
    /// Takes back what was said last of the piece at that place: with it what was said since of the
    /// parts that it made, how many they are and of which type.
    /// UsageError where nothing was.
    void undoRegrouping(std::int64_t photoId, PointOnCard at, const ChangeReason& reason);
    /// A photo that stands, by its number; UsageError when the book has no such photo or it was
    /// withdrawn.
    [[nodiscard]] StoredPhoto photo(std::int64_t id) const;
    /// Stores a further finding of a photo; the newest counts, the old ones stay.
    StoredFinding addFinding(std::int64_t photoId, const Measurement& measurement,
                             const std::string& options, const std::string& programVersion);
    /// As added, pieces as corrected by hand. A photo whose newest finding cannot be read has the
    /// refusal findingDamaged in its place, here and below, and that is told.
    [[nodiscard]] std::vector<StoredPhoto> photos(std::int64_t visitId) const;
    /// How many photos of each place a visit has; their findings are not read.
    [[nodiscard]] std::map<Place, std::size_t> photoCounts(std::int64_t visitId) const;
    /// How many photos each visit has that has any, by the visit's number.
    [[nodiscard]] std::map<std::int64_t, std::size_t> photosOfVisits() const;
    [[nodiscard]] std::optional<StoredPhoto> photoBySha256(const std::string& sha256) const;
    [[nodiscard]] std::vector<StoredFinding> findings(std::int64_t photoId) const; ///< newest first
    /// Keeps a second photo that findings are made with (of the cleaned place, after a magnet, in a
    /// second light); one that is there stays.
    /// @return its SHA-256, under which originalPhoto and originalBytes give it back.
    std::string keepCleanReference(const std::string& fileName, std::span<const std::byte> bytes);
    /// The original's file, of a photo, a clean reference or a photo of work. PhotoLost when it is
    /// missing.
    [[nodiscard]] std::filesystem::path originalPhoto(const std::string& sha256) const;
    /// The original's bytes. PhotoLost when missing or no longer those of its SHA-256.
    [[nodiscard]] std::vector<std::byte> originalBytes(const std::string& sha256) const;

    /// Stores an observation; `id` and `recordedAt` are set here. `json` must be JSON. What it
    /// corrects stays in the book. UsageError: that is no observation of this visit, or one that
    /// was corrected before.
    StoredObservation addObservation(const StoredObservation& observation);
    /// All of a visit, corrected ones too, as entered.
    [[nodiscard]] std::vector<StoredObservation> observations(std::int64_t visitId) const;
    /// Keeps a photo of work beside the observation that tells of it, as an original like any
    /// other: its bytes stay as they are, and a file that the book has is not kept twice. The same
    /// photo of the same observation and moment again changes nothing. The caller has looked
    /// whether it is a photo. UsageError: the book has no such observation.
    /// Checked: tests/record/work_photos_test.cpp.
    WorkPhoto addWorkPhoto(const NewWorkPhoto& photo, std::span<const std::byte> bytes);
    /// Those of a visit's observations, corrected ones too, by observation; before, then after.
    [[nodiscard]] std::vector<WorkPhoto> workPhotos(std::int64_t visitId) const;
    /// Numbers of the visits with an observation, not corrected, whose stored text holds this,
    /// capitals and small letters of ASCII alike. Checked: tests/cli/list_test.cpp.
    [[nodiscard]] std::set<std::int64_t> visitsWithObserved(const std::string& text) const;
    /// Visits with an observation of this kind that was not corrected, by number: those of which
    /// the judgement by these rules is kept, and those to be judged.
    /// @param rules  SHA-256 of all that judges; what other rules judged counts as not judged.
    /// Checked: tests/record/judged_case_test.cpp.
    [[nodiscard]] JudgedCases judgedCases(const std::string& kind, const std::string& rules) const;
    /// Keeps what was judged of visits that were missing, and drops what other rules judged. A book
    /// that was opened to be read keeps it too. Where the book was changed since it was asked,
    /// cannot be written or is being written, nothing is kept: the next reading judges again.
    void keepJudgedCases(const JudgedCases& asked, const std::vector<JudgedCase>& judged) const;

    /// Begins the flush of a part. UsageError: no such visit, or no part named. @return it.
    StoredFlush startFlush(const NewFlush& flush);
    /// Says that a photo of the tray shows what a pass of a flush washed out; said again of the
    /// same photo, it puts right which flush and step it was. UsageError: no such flush, or no
    /// photo of the tray at its visit.
    void addFlushPass(std::int64_t flushId, std::int64_t photoId, FlushStep step);
    /// Oldest first. Photos that are withdrawn, or that came to another visit or place, are in
    /// none. Checked: tests/record/book_flushes_test.cpp.
    [[nodiscard]] std::vector<StoredFlush> flushes(std::int64_t visitId) const;
    /// UsageError when the book has no flush of this number, or it or its visit was withdrawn.
    [[nodiscard]] StoredFlush flush(std::int64_t id) const;

    [[nodiscard]] WorkshopSettings settings() const;
    /// Keeps them all as they are here. UsageError: text too long or with control characters, or a
    /// paper that is none. Checked: tests/record/book_settings_test.cpp.
    void keepSettings(const WorkshopSettings& settings);

    /// Stores what a photo said of a thing of known size; `id` and `checkedAt` are set here.
    /// UsageError for names that are too long or hold control characters.
    StoredCheck addCheck(const StoredCheck& check);
    /// Oldest first; of a photo checked for the same thing again only the newest reading that is
    /// not withdrawn. The same thing lies at the same place of the photo. Of a reading whose place
    /// is not known (older books have none) it is the same where the known size is, or where the
    /// readings are: then a known size was typed wrongly.
    /// Checked: tests/record/book_checks_test.cpp.
    [[nodiscard]] std::vector<StoredCheck> checks() const;

    /// Stores a printed card or, when its serial is known, what is newly said of it; the layout
    /// cannot change. An empty `printedAt` means now for a new card.
    PrintedCard saveCard(const PrintedCard& card);
    [[nodiscard]] std::optional<PrintedCard> card(const std::string& serial) const;
    [[nodiscard]] std::vector<PrintedCard> cards() const; ///< as they were printed
    /// A serial that no other card has, in this book or another (base/card_serial.h); call it in
    /// the transaction that saves the card.
    [[nodiscard]] std::string nextSerial() const;

    /// Copies the whole book, as it is at one moment, to a folder that is not there yet; the copy
    /// is a book itself: entries, photos, charts and what was set aside. It is read back before it
    /// appears, and it appears in one step. What cannot be read is told and left out, what is
    /// damaged is told and copied as it is. UsageError when the folder is there already, appears
    /// meanwhile or is in the book.
    Copied backUp(const std::filesystem::path& target);

    /// Reads everything in the book and says what is wrong with it (verify_book.h, leftovers.h).
    [[nodiscard]] BookState check();
    /// Removes what killed commands left and moves photos that no entry names to set-aside.
    /// @return one sentence for each.
    std::vector<std::string> mend();

  private:
    Book(std::filesystem::path folder, std::unique_ptr<Database> database);
    std::filesystem::path folder_;
    std::unique_ptr<Database> database_;
    bool wasOpenToOthers_ = false;
    std::function<void(const std::string&)> say_;
    mutable std::set<std::string> said_;
};

} // namespace swarfbook
