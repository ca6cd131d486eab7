// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed_observation.h"
#include "cli/parsed_options.h"
#include "record/book_values.h"

#include <boost/program_options/options_description.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// The parts of the words of `observe`.
namespace swarfbook::cli {

/// Cuts the words typed after `observe` into parts, one for each observation. "and" or a comma
/// separates two if the name of a kind follows.
/// Checked: tests/cli/several_observations_test.cpp.
std::vector<std::vector<std::string>> partsOfLine(const std::vector<std::string>& words);

/// The words of a line of text, cut at blanks as a shell does, those in quotation marks whole.
/// UsageError for a quotation mark that does not end.
std::vector<std::string> wordsOfLine(const std::string& line);

/// A photo of work, as its file was typed.
struct TypedWorkPhoto {
    WorkMoment moment = WorkMoment::before;
    std::string file;
};

/// One observation as typed, with the options that any kind takes.
struct TypedObservation {
    TypedLine line;
    std::string by;
    std::optional<std::int64_t> corrects;
    Sure sure = Sure::ask;
    std::vector<TypedWorkPhoto> photos{};
    std::size_t lineNumber = 0; ///< in the file, from 1 on; 0 = typed in the command
};

/// The observation of one part; nothing if no kind is named. Throws UsageError for options that its
/// kind does not have.
std::optional<TypedObservation> typedObservation(const ParsedOptions& words);

/// The observation it means, or several for a line of work; a refusal shows an example of the kind.
std::vector<Observation> observationsMeant(const TypedObservation& typed);

/// The options of all kinds, with those of the verb.
boost::program_options::options_description observeOptions();

/// The kinds, each with its usage, what it is and an example.
std::string kindsHelp();
/// The help of one kind alone: its words and options.
std::string kindHelp(const std::string& kind);

} // namespace swarfbook::cli
