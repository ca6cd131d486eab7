// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/pages.h"

#include "base/errors.h"
#include "web/embedded_files.h"
#include "web/html.h"
#include "web/page_words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <functional>
#include <map>

namespace swarfbook::web {
namespace {

/// What the page's own scripts ask for, which is answered in JSON.
bool isForScript(const Asked& asked) {
    const auto parts = asked.parts();
    return (parts.size() == 3 && (parts[2] == "upload" || parts[2] == "photo")) ||
           (parts.size() == 3 && parts[0] == "photo" &&
            (parts[2] == "piece" || parts[2] == "marks"));
}

Answer wentWrong(const Asked& asked, int status, const std::string& title,
                 const std::string& sentence) {
    if (isForScript(asked))
        return json(nlohmann::json{{"error", forPages(sentence)}}.dump(
                        -1, ' ', false, nlohmann::json::error_handler_t::replace),
                    status);
    return refusalPage(status, title, sentence);
}

std::optional<Answer> postedToVisit(Workshop& workshop, const Asked& asked, std::int64_t visit,
                                    const std::string& what) {
    if (what == "row")
        return keepRow(workshop, visit, asked);
    if (what == "take-back")
        return takeBack(workshop, visit, asked);
    if (what == "observe")
        return keepObserved(workshop, visit, asked);
    if (what == "flush")
        return startFlush(workshop, visit, asked);
    if (what == "upload")
        return takePart(workshop, asked);
    if (what == "correct")
        return correctVisitOf(workshop, visit, asked);
    if (what == "withdraw")
        return withdrawVisitOf(workshop, visit, asked);
    if (what == "back")
        return bringVisitBack(workshop, visit, asked);
    if (what == "photo")
        return finishUpload(workshop, visit, asked);
    return std::nullopt;
}

using PageOfVisit = std::function<Answer(Workshop&, std::int64_t, const Asked&)>;

/// What may be looked at of a visit, by the last word of its address.
const std::map<std::string, PageOfVisit>& pagesOfVisit() {
    const auto withoutFields = [](Answer (*page)(Workshop&, std::int64_t)) {
        return [page](Workshop& workshop, std::int64_t visit, const Asked& /*asked*/) {
            return page(workshop, visit);
        };
    };
    const auto filledIn =
        [](Answer (*page)(Workshop&, std::int64_t, const Asked&, const std::string&)) {
            return [page](Workshop& workshop, std::int64_t visit, const Asked& asked) {
                return page(workshop, visit, asked, "");
            };
        };
    static const std::map<std::string, PageOfVisit> pages{
        {"", withoutFields(visitPage)},
        {"step", stepPage},
        {"row", filledIn(rowPage)},
        {"correct", filledIn(putRightPage)},
        {"observed", withoutFields(observedPage)},
        {"observe", filledIn(observePage)},
        {"suggestion", withoutFields(suggestionPage)},
        {"compare", comparePage},
        {"trend.png", trendPicture},
        {"report", withoutFields(reportPage)},
        {"sheet.pdf", withoutFields(workSheetFile)},
        {"report.pdf", reportFile},
        {"report.png", reportFile},
        {"report.txt", reportFile},
        {"shoot", shootPage},
        {"flush", filledIn(flushesPage)},
        {"tray", cleanTrayPage},
        {"pass", passPage},
        {"second", secondPhotoPage},
        {"work", workPhotoPage},
        {"upload", uploadState}};
    return pages;
}

std::optional<Answer> ofVisit(Workshop& workshop, const Asked& asked,
                              const std::vector<std::string>& parts) {
    const std::int64_t visit = numberOf(parts[1]);
    const std::string what = parts.size() > 2 ? parts[2] : "";
    if (parts.size() > 3)
        return std::nullopt;
    if (asked.method == "POST")
        return postedToVisit(workshop, asked, visit, what);
    const auto& pages = pagesOfVisit();
    const auto page = pages.find(what);
    return page == pages.end() ? std::nullopt : std::optional(page->second(workshop, visit, asked));
}

std::optional<Answer> ofPhoto(Workshop& workshop, const Asked& asked,
                              const std::vector<std::string>& parts) {
    const std::int64_t photo = numberOf(parts[1]);
    const std::string what = parts.size() > 2 ? parts[2] : "";
    if (parts.size() > 3)
        return std::nullopt;
    if (asked.method == "POST")
        return what == "piece"       ? std::optional(correctPieceOf(workshop, photo, asked))
               : what == "again"     ? std::optional(measurePhotoAgain(workshop, photo))
               : what == "elsewhere" ? std::optional(putPhotoElsewhere(workshop, photo, asked))
               : what == "withdraw"  ? std::optional(withdrawPhotoOf(workshop, photo, asked))
               : what == "back"      ? std::optional(bringPhotoBack(workshop, photo, asked))
                                     : std::nullopt;
    if (what.empty())
        return photoPage(workshop, photo);
    if (what == "marks")
        return photoMarks(workshop, photo);
    if (what == "picture")
        return photoPicture(workshop, photo,
                            asked.said("small") == "1" ? PhotoShown::small : PhotoShown::original);
    if (what == "above")
        return photoPicture(workshop, photo, PhotoShown::fromAbove);
    return std::nullopt;
}

std::optional<Answer> ofVehicle(Workshop& workshop, const Asked& asked,
                                const std::vector<std::string>& parts) {
    const std::int64_t vehicle = numberOf(parts[1]);
    const std::string what = parts.size() > 2 ? parts[2] : "";
    if (parts.size() > 3)
        return std::nullopt;
    if (asked.method != "POST")
        return what.empty() ? std::optional(vehiclePage(workshop, vehicle, asked)) : std::nullopt;
    return what.empty()         ? std::optional(correctVehicleOf(workshop, vehicle, asked))
           : what == "withdraw" ? std::optional(withdrawVehicleOf(workshop, vehicle, asked))
           : what == "back"     ? std::optional(bringVehicleBack(workshop, vehicle, asked))
                                : std::nullopt;
}

/// A flush is shown on the page of its visit's flushes.
std::optional<Answer> ofFlush(Workshop& workshop, const Asked& asked,
                              const std::vector<std::string>& parts) {
    const std::int64_t flush = numberOf(parts[1]);
    if (parts.size() != 3 || asked.method != "POST")
        return std::nullopt;
    return parts[2] == "withdraw" ? std::optional(withdrawFlushOf(workshop, flush, asked))
           : parts[2] == "back"   ? std::optional(bringFlushBack(workshop, flush, asked))
                                  : std::nullopt;
}

std::optional<Answer> found(Workshop& workshop, const Asked& asked) {
    const std::vector<std::string> parts = asked.parts();
    const bool post = asked.method == "POST";
    if (parts.empty())
        return post ? std::nullopt : std::optional(visitsPage(workshop, asked));
    if (parts[0] == "visit" && parts.size() > 1)
        return ofVisit(workshop, asked, parts);
    if (parts[0] == "photo" && parts.size() > 1)
        return ofPhoto(workshop, asked, parts);
    if (parts[0] == "vehicle" && parts.size() > 1)
        return ofVehicle(workshop, asked, parts);
    if (parts[0] == "flush" && parts.size() > 1)
        return ofFlush(workshop, asked, parts);
    if (asked.path == "/vehicles" && !post)
        return vehiclesPage(workshop, asked);
    if (asked.path == "/new")
        return post ? addVisit(workshop, asked) : newVisitPage(workshop, asked);
    if (asked.path == "/devices")
        return post ? revokeDevice(workshop, asked) : devicesPage(workshop, asked);
    return std::nullopt;
}

} // namespace

Answer json(const std::string& document, int status) {
    return {status, "application/json", document, {}};
}

Answer answerPaired(Workshop& workshop, const Asked& asked) {
    try {
        if (const auto answer = found(workshop, asked))
            return *answer;
        return wentWrong(asked, 404, "No such page", "There is no such page.");
    } catch (const UsageError& wrong) {
        return wentWrong(asked, 400, "That cannot be done", wrong.what());
    } catch (const EvidenceRefused& refused) {
        return wentWrong(asked, 409, "Not enough to go on", refused.what());
    } catch (const ToolError& failed) {
        return wentWrong(asked, 500, "Something failed", failed.what());
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception& failed) {
        return wentWrong(asked, 500, "Something failed", failed.what());
    }
}

} // namespace swarfbook::web
