// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_work_photos.h"

#include "report/work_done.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double longestSidePx = 1100.0; // 300 dots per inch over half of the page's width

cv::Mat madeSmall(const cv::Mat& bgr) {
    const double factor = longestSidePx / std::max(bgr.cols, bgr.rows);
    if (factor >= 1.0)
        return bgr;
    const auto side = [&](int pixels) {
        return std::max(1, static_cast<int>(std::lround(factor * pixels)));
    };
    cv::Mat small;
    cv::resize(bgr, small, {side(bgr.cols), side(bgr.rows)}, 0.0, 0.0, cv::INTER_AREA);
    return small;
}

std::string workOf(const VisitEvidence& visit, std::size_t place, const PartVerdicts& parts) {
    VisitEvidence one;
    one.observations = {visit.observations[place]};
    std::string work;
    for (const std::string& sentence : workSentences(one, parts))
        work += (work.empty() ? "" : " ") + sentence;
    return work;
}

} // namespace

void addWorkPhotos(ReportModel& model, const Book& book, const VisitEvidence& visit,
                   const PartVerdicts& parts) {
    const std::vector<WorkPhoto> photos = book.workPhotos(visit.visitId);
    for (std::size_t i = 0; i < visit.observations.size(); ++i) {
        ReportedWork work;
        for (const WorkPhoto& photo : photos) {
            if (photo.observationId != visit.observationNumbers.at(i))
                continue;
            const auto [bgr, why] = originalOf(book, photo, visit.visitId);
            if (bgr.empty()) {
                model.notKnown.push_back(fmt::format("A photo of the part {} the work is not "
                                                     "shown: {}",
                                                     workMomentWord(photo.moment), why));
                continue;
            }
            auto& side = photo.moment == WorkMoment::before ? work.before : work.after;
            side.push_back({photo.sha256, madeSmall(bgr)});
        }
        if (work.before.empty() && work.after.empty())
            continue;
        work.work = workOf(visit, i, parts);
        model.workShown.push_back(std::move(work));
    }
}

std::string workPhotoCounts(const ReportedWork& work) {
    std::string text;
    for (const auto& [count, word] :
         {std::pair(work.before.size(), workMomentWord(WorkMoment::before)),
          std::pair(work.after.size(), workMomentWord(WorkMoment::after))})
        if (count > 0)
            text +=
                fmt::format("{}{} {}", text.empty() ? "Photos of this work: " : ", ", count, word);
    return text;
}

nlohmann::ordered_json workPhotosJson(const std::vector<ReportedWork>& all) {
    const auto sums = [](const std::vector<ReportedWorkPhoto>& photos) {
        nlohmann::ordered_json list = nlohmann::ordered_json::array();
        for (const ReportedWorkPhoto& photo : photos)
            list.push_back(photo.sha256);
        return list;
    };
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const ReportedWork& work : all)
        list.push_back(
            {{"work", work.work}, {"before", sums(work.before)}, {"after", sums(work.after)}});
    return list;
}

} // namespace swarfbook
