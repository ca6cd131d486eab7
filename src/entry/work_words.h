// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/suggestion.h"

#include <string>
#include <string_view>
#include <vector>

/// The words of the trade for work that was done: parts, and what is done to them.
/// Common practice, no source.
namespace swarfbook {

/// A kind of part, its names, and the outcome of renewing or repairing it.
struct KindOfPart {
    std::string_view name;
    std::vector<std::string_view> words; ///< as they are printed; several words parted by blanks
    Recommendation rung;
    bool hasName = false; ///< has names, as in "solenoid A"; else there is only one
};

/// An action on a part.
enum class WorkDepth {
    looked, ///< checked: changes nothing
    light,  ///< cleaned, refitted: the part stays
    deep    ///< renewed, repaired, adjusted
};
struct WorkAction {
    std::string_view name;               ///< as it is printed
    std::vector<std::string_view> words; ///< as it may be typed
    WorkDepth depth = WorkDepth::deep;
};

/// The parts of one phrase of work.
struct WorkPhrase {
    std::string typed;
    const KindOfPart* part = nullptr;
    std::string partWord;                   ///< the word of the part that was typed
    std::string name;                       ///< "A"; of a kind that has names
    std::string which;                      ///< "both", "front"
    std::vector<const WorkAction*> actions; ///< in the order typed, each once
    bool actionFirst = false;               ///< "renewed filter"
    std::string unknown;                    ///< words that are not understood
};

/// The phrases of a line: cut at commas, semicolons, full stops, "and", "+" and "&". A comma
/// between two digits is a decimal comma.
std::vector<std::string> phrasesOf(const std::string& line);

/// The words of a phrase.
std::vector<std::string> wordsOfPhrase(const std::string& phrase);

/// Reads a phrase. Words that are neither a part, a name, an action nor a filler stay in `unknown`.
/// @param before  the kind in the phrase before: "solenoids A and B"; may be null
WorkPhrase workPhrase(const std::string& phrase, const KindOfPart* before);

/// "filter, connector, wiring strap, ...": every kind by its first word.
std::string listOfParts();
/// "renewed, cleaned, ...".
std::string listOfActions();

} // namespace swarfbook
