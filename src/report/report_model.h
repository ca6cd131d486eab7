// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "base/result.h"
#include "card/layout.h"
#include "elimination/elimination.h"
#include "judgement/coat_history.h"
#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/wear_score.h"
#include "particles/magnet_finding.h"
#include "particles/particle.h"
#include "report/bench_tables.h"

#include <opencv2/core.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// All that a report on one visit says, as values; the writers (text, JSON, PDF, picture) draw on
/// nothing else. Pictures are 8-bit BGR and empty where there is none.
namespace swarfbook {

/// The job a report is about. Plate and VIN are filled in only when they were asked for.
struct ReportedJob {
    std::string workshop; ///< "" when not set
    std::string vehicle;  ///< the shop's label
    std::string unit;
    std::string plate, vin;
    std::int64_t visit = 0;
    std::string date;
    std::optional<double> odometerKm;
    std::optional<double> sinceCleanKm; ///< distance since the last documented clean
    std::string complaint;              ///< in the customer's words
    std::string lookedBy;
    std::string address{}, telephone{}; ///< of the workshop, "" when not set
};

/// One piece that a report shows by itself.
struct ReportedPiece {
    Particle particle;
    bool inCoat = false; ///< a sliver in a magnet's coat
    cv::Mat crop;        ///< all crops of one sample, or of page one, at one scale
};

/// One photo of a sample and what it shows.
struct ReportedSample {
    Place place = Place::pad;
    std::string sampling;           ///< how it was taken, "" when not said
    bool ofFlush = false;           ///< the tray after a pass of a flush
    std::vector<std::string> basis; ///< side and area of a filter, volume strained: a sentence each
    std::string sha256;             ///< of the original photo
    std::string taken;              ///< as the camera recorded, "" when not known
    std::optional<Refusal> refusal; ///< then nothing below is claimed
    std::string layout, serial;     ///< of the card
    PrintScale printScale;
    Degrees tilt;
    double scaleUPercent = 0.0; ///< of the fit of the card alone
    DebrisFinding debris;
    std::optional<MagnetFinding> magnet;
    std::string coatClass{}; ///< the coat in the trade's words, and whether the magnet is full
    std::optional<AfterMagnet> afterMagnet; ///< what a magnet took, where a second photo was given
    std::optional<SecondLightUse> secondLight{}; ///< where a photo in a second light was given
    std::string magnetNote;                      ///< place magnet: why its coat was not measured
    std::string programVersion;                  ///< that measured it
    cv::Mat annotated;                           ///< straightened window with marks and legend
    cv::Mat plain;                               ///< the same window without marks
    double plainPxPerMm = 0.0;
    std::vector<std::string> byHand;    ///< pieces corrected by hand, a sentence each
    std::vector<ReportedPiece> largest; ///< neither doubtful pieces nor threads
    std::vector<ReportedPiece>
        threads;           ///< the longest, apart, without crops; none that is doubtful
    Millimetres cropField; ///< side of the crops
};

/// What page one shows: the pieces that the verdict rests on or, where it rests on none, the
/// largest that were found; beside them those of the last visit that shows the same place.
struct ReportedPieces {
    bool restedOn = false; ///< the verdict rests on them
    std::string sentence;  ///< what they are, as the reason says it
    std::string counted;   ///< which pieces the sentence counts, "" where it counts none
    std::size_t count = 0; ///< of them all; `now` holds the largest
    std::vector<ReportedPiece> now;
    std::string beforeDate;            ///< of the earlier visit; "" where none shows the place
    std::size_t countBefore = 0;       ///< of the same type and size, or larger
    std::vector<ReportedPiece> before; ///< the largest of the same type, whatever their size
    Millimetres field;                 ///< side of every crop: all are at one scale
};

/// One line of the comparison with an earlier visit.
struct ReportedChange {
    std::optional<ParticleType> type; ///< nothing: all pieces
    long before = 0, now = 0;
    std::optional<double> ratio; ///< rate now / rate before, per distance
    double low = 0.0, high = 0.0;
    bool proven = false;
};

/// An earlier visit and this one side by side.
struct ReportedComparison {
    std::string beforeDate, nowDate;
    Place place = Place::pad;
    std::string sentence; ///< what changed, or why they cannot be compared
    bool compared = false;
    Millimetres detectionLimit;          ///< common to both
    std::vector<ReportedChange> changes; ///< empty unless compared
    cv::Mat before, now;                 ///< straightened windows at one scale, with marks
    double pxPerMm = 0.0;
};

/// The wear score of one visit of this vehicle.
struct ReportedTrendPoint {
    std::int64_t visit = 0;
    std::string date;
    std::optional<double> odometerKm;
    WearScoreResult score;
};

struct ReportedObservation {
    std::string kind;
    std::string line;       ///< in plain words
    std::string recordedAt; ///< UTC
    std::string by{};       ///< who, "" = whoever looked at the visit
};

/// A photo of work; it is not measured.
struct ReportedWorkPhoto {
    std::string sha256; ///< of the original photo
    cv::Mat picture;    ///< made small
};

/// The work that one observation tells of, with its photos; at least one.
struct ReportedWork {
    std::string work; ///< in sentences
    std::vector<ReportedWorkPhoto> before, after;
};

struct ReportModel {
    std::string programVersion;
    ReportedJob job;
    std::string verdict;                  ///< one plain sentence
    std::optional<Suggestion> suggestion; ///< absent: `noSuggestion` says why
    std::string noSuggestion;
    std::string nextCheck;                 ///< when to look again, "" when nothing is said
    std::vector<std::string> workDone{};   ///< one sentence each; empty: nothing was typed in
    std::vector<ReportedWork> workShown{}; ///< the part of it that photos show
    std::vector<ReportedSample> samples;
    ReportedPieces pieces;
    std::optional<ReportedComparison> comparison;
    std::string noComparison; ///< why there is none
    std::vector<ReportedTrendPoint> trend;
    std::string trendSentence; ///< what the points show together, or why nothing can be said
    WearScoreResult wearScore;
    CoatHistory coats{};                    ///< of the magnet, over the visits
    std::optional<Elimination> elimination; ///< absent: no chart, or nothing told by gear
    std::vector<ReportedTable> benchTables;
    std::vector<FlushOfPart> flushes{}; ///< parts that were flushed, each with its passes
    std::vector<ReportedObservation> observations; ///< those that no table shows
    int corrected = 0;                             ///< entries that later ones replaced
    std::vector<std::string> notInspected;         ///< recorded as not looked at
    std::vector<std::string> notKnown;
    std::vector<std::string> methodNotes; ///< repeats of one sample, checks by things of known size
};

} // namespace swarfbook
