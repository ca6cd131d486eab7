// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/shown_units.h"
#include "record/book_values.h"
#include "report/report_model.h"

#include <string>
#include <vector>

/// The sentences and numbers that every kind of report shares.
namespace swarfbook {

/// The text with a capital and a full stop.
std::string asSentence(std::string text);
/// Address and telephone in one line, "" where neither is set.
std::string contactLine(const ReportedJob& job);
/// "Pan floor", "Magnet", ... as a heading.
std::string placeTitle(Place place);
/// "1.79 ± 0.06 mm": the value and its 95 % half-width (1.96 standard uncertainties).
std::string lengthWords(const Measured<Millimetres>& length);
/// "0.2 to 0.4 mm", "3 mm and more".
std::string sizeWords(const ClassCount& row);
/// "12 (6.2 to 21.0)": the value and its 95 % interval.
std::string intervalWords(double value, double low, double high);
/// "34 (25 to 46) of 100" or why there is none.
std::string wearWords(const WearScoreResult& score);
/// "yes", "no", "not known".
std::string ferrousWords(Ferrous ferrous);

/// The verdict as one sentence that a customer can read.
std::string verdictSentence(const std::optional<Suggestion>& suggestion);
/// "Look again after 5,000 km, at about 133,000 km." or "".
std::string nextCheckSentence(const std::optional<Suggestion>& suggestion,
                              std::optional<double> odometerKm);
/// What is suggested, with converter, cooler and "do not drive" where they belong to it; one
/// sentence an entry.
std::vector<std::string> suggestionSentences(const Suggestion& suggestion);

/// How wide a piece is: across its narrowest side; of a thread, which lies in a bow, its area over
/// its own length.
Measured<Millimetres> widthOf(const Particle& piece);

/// The longest piece that is no thread, and the longest thread; none that is doubtful. nullptr
/// where there is none.
const Particle* longestPiece(const DebrisFinding& debris);
const Particle* longestThread(const DebrisFinding& debris);
/// How many pieces are doubtful.
std::size_t piecesInDoubt(const DebrisFinding& debris);
/// The same in words: "3 of these are doubtful."; "" where none.
std::string doubtSentence(const DebrisFinding& debris);

/// One sentence of what a sample shows: how many pieces, the largest, the floor, or why it could
/// not be measured.
std::string sampleSentence(const ReportedSample& sample);
/// "Piece 3, measured as lining, is bright metal (by M.)."
std::string correctedSentence(const CorrectedPiece& piece);
/// "Corrected by hand: ...", "" where nothing was.
std::string byHandSentence(const ReportedSample& sample);
/// "Pan floor, 2025-06-14 against 2024-05-13: ...", or why nothing is compared.
std::string comparisonSentence(const ReportModel& model);
/// "2.4 (1.9 to 3)", "at least 2.1", or that there is none.
std::string ratioWords(const ReportedChange& change);
/// "bright metal"; "all pieces" where no type is given.
std::string typesWord(const std::optional<ParticleType>& type);
/// What the counts are per: "per 100 cm² of measured area", "pieces of the whole sample".
std::string countUnit(const DebrisFinding& debris);
/// The classes worth a line: all from the first to the last that holds a piece, at least one.
std::vector<ClassCount> rowsToShow(const DebrisFinding& debris);

/// "37 pieces of 0.21 mm or more and at least 12 smaller": from the size floor, and what was seen
/// below it.
std::string piecesWords(const DebrisFinding& debris);
/// Which card, its print scale and whether that was checked.
std::string cardSentence(const ReportedSample& sample);

/// The first few single observations that would change the suggestion, and what is near a border;
/// one sentence an entry.
std::vector<std::string> turnSentences(const Suggestion& suggestion);

/// How it was measured and how sure it is.
std::vector<std::string> methodSentences(const ReportModel& model);
/// Cautions for whoever works on the vehicle: those the suggested steps need, then the usual ones.
std::vector<std::string> cautionSentences(const ReportModel& model);
/// What was not looked at and what is not known, without doubles.
std::vector<std::string> notLookedAt(const ReportModel& model);

} // namespace swarfbook
