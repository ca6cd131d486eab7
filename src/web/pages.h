// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "bench/observation.h"
#include "web/asked.h"
#include "web/book_access.h"
#include "web/devices.h"
#include "web/uploads.h"

#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook::web {

/// Where a paired device is led, and what it may compare.
struct PagesAddress {
    std::string origin;      ///< "https://192.168.1.20:8420"
    std::string fingerprint; ///< of the certificate; "" on the machine itself
    /// The address that pairs a device by this code.
    [[nodiscard]] std::string pairing(const std::string& code) const {
        return origin + "/pair?code=" + code;
    }
};

/// All that the pages work with; one of it for the whole program.
struct Workshop {
    BookAccess book;
    Devices devices;
    Uploads uploads;
    PagesAddress address{};
    std::mutex measuring{}; ///< one photo at a time: measuring one uses every core
    std::once_flag loading{};
    std::optional<AssessData> data{}; ///< see measuringData()

    Workshop(const std::filesystem::path& folder,
             const std::function<void(const std::string&)>& say)
        : book(folder, say), devices(pagesFolder(folder)), uploads(pagesFolder(folder)) {}
    /// What photos are measured by, loaded when it is first asked for.
    const AssessData& measuringData() {
        std::call_once(loading, [this] { data.emplace(loadAssessData()); });
        return *data;
    }
};

/// What a paired device is answered. Whatever goes wrong is a page, or JSON where the page's own
/// script asks; UsageError, EvidenceRefused and ToolError are shown in their own words. Throws
/// std::bad_alloc alone.
/// Checked: tests/web/pages_test.cpp.
Answer answerPaired(Workshop& workshop, const Asked& asked);

/// What anybody is answered: the page's style, and the pairing of a device by a code. Nothing for
/// any other address.
/// @param secure  whether the connection is encrypted: the token is then sent on no other.
std::optional<Answer> answerAnybody(Workshop& workshop, const Asked& asked, bool secure);

// Parts of the above, one for each kind of page.
/// The visits, the newest first, sixty at a time from the field `from` on.
Answer visitsPage(Workshop& workshop, const Asked& asked);
Answer newVisitPage(Workshop& workshop, const Asked& asked, const std::string& wrong = "");
Answer addVisit(Workshop& workshop, const Asked& asked);
Answer visitPage(Workshop& workshop, std::int64_t visit);
/// A box to tick.
std::string tickFor(const std::string& name, const std::string& words, bool ticked);
/// What is typed as a distance; without a unit it is in the one that the book shows.
std::optional<double> kilometresTyped(const std::string& typed);
/// The head of a visit to be typed over, its withdrawn photos, and what withdraws it. What is
/// withdrawn stays in the book with the device's name and the reason, as the command line keeps it.
/// Checked: tests/web/put_right_test.cpp.
Answer putRightPage(Workshop& workshop, std::int64_t visit, const Asked& asked,
                    const std::string& wrong = "");
Answer correctVisitOf(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer withdrawVisitOf(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer bringVisitBack(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer withdrawPhotoOf(Workshop& workshop, std::int64_t photo, const Asked& asked);
Answer bringPhotoBack(Workshop& workshop, std::int64_t photo, const Asked& asked);
std::string withdrawPhotoForm(std::int64_t photo);
/// What was withdrawn, each with the button that brings it back: "visit", "photo" or "flush".
std::string withdrawnList(const std::string& noun, const std::vector<Withdrawal>& all);
/// All withdrawn visits of the book; "" if no visit was withdrawn.
std::string withdrawnVisitsList(const Book& book);
/// All vehicles by label, or those whose label holds what was typed, and the withdrawn ones.
/// Checked: tests/web/vehicle_pages_test.cpp, as are the pages of a single vehicle.
Answer vehiclesPage(Workshop& workshop, const Asked& asked);
/// A vehicle's visits, what the book says of it to be typed over, and what withdraws it; kept with
/// the device's name, as the command line keeps it.
Answer vehiclePage(Workshop& workshop, std::int64_t vehicle, const Asked& asked,
                   const std::string& wrong = "");
Answer correctVehicleOf(Workshop& workshop, std::int64_t vehicle, const Asked& asked);
Answer withdrawVehicleOf(Workshop& workshop, std::int64_t vehicle, const Asked& asked);
Answer bringVehicleBack(Workshop& workshop, std::int64_t vehicle, const Asked& asked);
/// The name of the device that asks.
std::string deviceName(const Workshop& workshop, const Asked& asked);
Answer stepPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer rowPage(Workshop& workshop, std::int64_t visit, const Asked& asked,
               const std::string& wrong = "");
Answer keepRow(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// On to `back`, over a page with the remarks where there are any.
Answer keptPage(const std::vector<std::string>& remarks, const std::string& back);
Answer observedPage(Workshop& workshop, std::int64_t visit);
Answer takeBack(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// Every kind of observation with all that the command line takes of it, and what puts a kept one
/// right. Checked: tests/web/observe_pages_test.cpp.
Answer observePage(Workshop& workshop, std::int64_t visit, const Asked& asked,
                   const std::string& wrong = "");
Answer keepObserved(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// What leads to the page that puts an observation right.
std::string putRightButton(std::int64_t visit, const Observation& observation,
                           const StoredObservation& stored);
Answer suggestionPage(Workshop& workshop, std::int64_t visit);
Answer comparePage(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// @param asked  narrow=1: for a phone.
Answer trendPicture(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer reportPage(Workshop& workshop, std::int64_t visit);
/// The sheet to print before the job starts.
Answer workSheetFile(Workshop& workshop, std::int64_t visit);
Answer reportFile(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer shootPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// Whether a photo may be measured with a second one, after a magnet or of the place cleaned.
bool mayHaveSecond(const StoredPhoto& photo);
Answer secondPhotoPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer finishSecondPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// Photos of a line of work, before and after: they need no card and are not measured.
/// Checked: tests/web/work_photo_pages_test.cpp.
Answer workPhotoPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer finishWorkPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked);
/// The flushes of a visit's parts, what begins one and what withdraws one without a pass.
/// Checked: tests/web/flush_pages_test.cpp.
Answer flushesPage(Workshop& workshop, std::int64_t visit, const Asked& asked,
                   const std::string& wrong = "");
Answer startFlush(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer withdrawFlushOf(Workshop& workshop, std::int64_t flush, const Asked& asked);
Answer bringFlushBack(Workshop& workshop, std::int64_t flush, const Asked& asked);
Answer cleanTrayPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer passPage(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer finishFlushPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer uploadState(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer takePart(Workshop& workshop, const Asked& asked);
Answer finishUpload(Workshop& workshop, std::int64_t visit, const Asked& asked);
Answer photoPage(Workshop& workshop, std::int64_t photo);
/// What a photo's script draws and shows, as JSON: outlines of its pieces with what is said of
/// each, a magnet's rim and slivers, and what was measured as HTML. Checked:
/// tests/web/pages_test.cpp.
std::string marksText(const StoredPhoto& photo);
Answer photoMarks(Workshop& workshop, std::int64_t photo);
/// All that was measured of a photo, as the command line's measure says it: counts by size and type
/// with their intervals, the largest pieces, what is doubtful, the size limit, a magnet's fuzz.
/// Checked: tests/web/measured_section_test.cpp.
std::string measuredSection(const Measurement& measurement);
enum class PhotoShown { original, small, fromAbove };
Answer photoPicture(Workshop& workshop, std::int64_t photo, PhotoShown shown);
/// Measures it again with this program; what is typed in meanwhile for the magnets counts.
Answer measurePhotoAgain(Workshop& workshop, std::int64_t photo);
/// Takes it over to the visit and place that it belongs to and measures it as there.
/// Checked: tests/web/photo_elsewhere_test.cpp.
Answer putPhotoElsewhere(Workshop& workshop, std::int64_t photo, const Asked& asked);
std::string photoElsewhereForm(const Book& book, const StoredPhoto& photo);
Answer correctPieceOf(Workshop& workshop, std::int64_t photo, const Asked& asked);
Answer devicesPage(Workshop& workshop, const Asked& asked);
Answer revokeDevice(Workshop& workshop, const Asked& asked);

/// A JSON document as an answer.
Answer json(const std::string& document, int status = 200);

} // namespace swarfbook::web
