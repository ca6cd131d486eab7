// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_pieces.h"

#include "judgement/debris_facts.h"
#include "report/annotated_photo.h"
#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace swarfbook {

namespace {

constexpr std::size_t mostShown = 7; // in one row of the page
constexpr double shownSidePx =
    300.0; // 270 dots per inch and more over a seventh of the page's width

/// A piece and the sample of its visit that shows it.
struct Seen {
    const Particle* piece = nullptr;
    std::size_t sample = 0;
    bool inCoat = false;
};

bool longerFirst(const Seen& a, const Seen& b) {
    return a.piece->maxFeret.value > b.piece->maxFeret.value;
}

std::vector<Seen> seenIn(const DebrisItem& item, const VisitEvidence& visit) {
    const auto& magnet = visit.samples[item.sample].magnet;
    std::vector<Seen> seen;
    for (const Particle* piece : item.pieces) {
        const bool inCoat = magnet && std::any_of(magnet->slivers.begin(), magnet->slivers.end(),
                                                  [&](const Particle& p) { return &p == piece; });
        seen.push_back({piece, item.sample, inCoat});
    }
    return seen;
}

/// The item counted by the strongest reason that rests on pieces in a photo.
const DebrisItem* restedOn(const Suggestion& suggestion, const std::vector<DebrisItem>& items) {
    std::vector<const Reason*> reasons;
    for (const Reason& reason : suggestion.all)
        if (reason.supports)
            reasons.push_back(&reason);
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const Reason* a, const Reason* b) { return a->weight > b->weight; });
    for (const Reason* reason : reasons)
        for (const DebrisItem& item : items)
            if (reason->sentence.find(item.sentence) != std::string::npos)
                return &item;
    return nullptr;
}

/// All pieces of a visit's photos that are neither doubtful nor threads, of `place` if given.
std::vector<Seen> surePieces(const VisitEvidence& visit, std::optional<Place> place) {
    std::vector<Seen> seen;
    for (std::size_t i = 0; i < visit.samples.size(); ++i) {
        const DebrisSample& sample = visit.samples[i];
        if (!sample.finding || (place && sample.place != *place))
            continue;
        for (const Particle& piece : sample.finding->particles)
            if (!piece.mayBeNone() && piece.type != ParticleType::fibre)
                seen.push_back({&piece, i, false});
        if (sample.magnet)
            for (const Particle& piece : sample.magnet->slivers)
                if (!piece.mayBeNone())
                    seen.push_back({&piece, i, true});
    }
    return seen;
}

/// The pieces of a visit that are shown, in the order of size.
struct Shown {
    const VisitEvidence* visit = nullptr;
    std::vector<Seen> pieces;
};

void keepLargest(Shown& shown) {
    std::stable_sort(shown.pieces.begin(), shown.pieces.end(), longerFirst);
    if (shown.pieces.size() > mostShown)
        shown.pieces.resize(mostShown);
}

/// The last visit before this one with a measured photo of the place.
const VisitEvidence* lastThatShows(const Evidence& evidence, Place place) {
    const auto shows = [place](const VisitEvidence& visit) {
        return std::any_of(visit.samples.begin(), visit.samples.end(),
                           [place](const DebrisSample& sample) {
                               return sample.finding && sample.place == place;
                           });
    };
    const auto last = std::find_if(evidence.earlier.rbegin(), evidence.earlier.rend(), shows);
    return last == evidence.earlier.rend() ? nullptr : &*last;
}

/// The pieces of the same type at the same place in an earlier visit.
Shown alikeBefore(const VisitEvidence& visit, const DebrisItem& now, const SuggestionModel& rules,
                  std::size_t& count) {
    Shown shown{&visit, {}};
    for (const DebrisItem& item : debrisOfPhotos(visit, rules).items) {
        if (item.what != now.what || item.place != now.place)
            continue;
        const std::vector<Seen> seen = seenIn(item, visit);
        shown.pieces.insert(shown.pieces.end(), seen.begin(), seen.end());
        if (item.size >= now.size)
            count += static_cast<std::size_t>(item.count);
    }
    return shown;
}

/// A round field that holds the longest piece and its ring.
Millimetres fieldFor(const std::array<const Shown*, 2>& both) {
    constexpr std::array fields{1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0};
    double longest = 0.0;
    for (const Shown* shown : both)
        for (const Seen& seen : shown->pieces)
            longest = std::max(longest, seen.piece->maxFeret.value.value());
    for (const double field : fields)
        if (field >= 1.35 * longest)
            return Millimetres(field);
    return Millimetres(1.35 * longest);
}

std::vector<ReportedPiece> cropped(const Shown& shown, const PiecesSource& source,
                                   Millimetres field) {
    std::vector<ReportedPiece> pieces;
    if (shown.pieces.empty())
        return pieces;
    const std::vector<StoredPhoto> photos = source.book.photos(shown.visit->visitId);
    const CropOptions crop{.field = field,
                           .scale = PixelsPerMillimetre(shownSidePx / field.value()),
                           .outline = false,
                           .ring = true,
                           .bar = false};
    for (const Seen& seen : shown.pieces) {
        const StoredPhoto& photo = photos.at(seen.sample);
        const cv::Mat bgr = source.originals.of(photo).bgr;
        pieces.push_back(
            {*seen.piece, seen.inCoat,
             bgr.empty() ? cv::Mat() : croppedPiece(bgr, photo.measurement, *seen.piece, crop)});
    }
    return pieces;
}

/// Which pieces are counted, and how they relate to all that the photo shows.
std::string countedWords(const DebrisItem& item, const DebrisSample& photo,
                         const SuggestionModel& rules) {
    std::string what(wordOf(item.what));
    std::replace(what.begin(), what.end(), '-', ' ');
    const std::string among = photo.magnet ? "Those pieces"
                                           : fmt::format("Of the {} that the photo shows, those",
                                                         piecesWords(*photo.finding));
    return fmt::format("{} count here that are {} (at least {:.0f} % sure) and {}, even if each is "
                       "as short as its \u00b1 figure allows.",
                       among, what, 100.0 * rules.sureOfType, leastSizeWords(*item.size, rules));
}

} // namespace

ReportedPieces reportedPieces(const std::optional<Suggestion>& suggestion,
                              const PiecesSource& source) {
    const Evidence& evidence = source.evidence;
    const PhotoDebris debris = debrisOfPhotos(evidence.now, source.rules);
    const DebrisItem* item = suggestion ? restedOn(*suggestion, debris.items) : nullptr;
    ReportedPieces pieces;
    Shown now{&evidence.now, item != nullptr ? seenIn(*item, evidence.now)
                                             : surePieces(evidence.now, std::nullopt)};
    pieces.restedOn = item != nullptr;
    pieces.count = now.pieces.size();
    if (now.pieces.empty())
        return pieces;
    keepLargest(now);
    pieces.sentence = item != nullptr ? item->sentence
                                      : "The largest pieces found, threads and doubtful ones "
                                        "aside. The verdict does not rest on them.";
    if (item != nullptr)
        pieces.counted = countedWords(*item, evidence.now.samples[item->sample], source.rules);
    const Place place = evidence.now.samples[now.pieces.front().sample].place;
    Shown before;
    if (const VisitEvidence* visit = lastThatShows(evidence, place)) {
        pieces.beforeDate = visit->date;
        before = item != nullptr ? alikeBefore(*visit, *item, source.rules, pieces.countBefore)
                                 : Shown{visit, surePieces(*visit, place)};
        keepLargest(before);
    }
    pieces.field = fieldFor({&now, &before});
    pieces.now = cropped(now, source, pieces.field);
    pieces.before = cropped(before, source, pieces.field);
    return pieces;
}

} // namespace swarfbook
