// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"
#include "record/book.h"

#include <boost/program_options/options_description.hpp>

#include <cstdint>
#include <optional>
#include <string>

namespace swarfbook::cli {

/// The visit that the user means: by its number, else the newest of the named vehicle, else the
/// newest of the vehicle last used.
struct VisitAsked {
    std::optional<std::int64_t> number;
    std::optional<std::string> vehicle;
};

/// Adds --visit and --vehicle to a verb's options.
void addVisitOptions(boost::program_options::options_description& to);

/// From --visit and --vehicle. Throws UsageError if both are given, or if --visit is not a number.
VisitAsked visitAsked(const ParsedOptions& words);

/// The visit meant. If its number was not given, says on standard error which it is. Throws
/// UsageError if the book has no such visit.
/// Checked: tests/cli/several_observations_test.cpp.
Visit visitMeant(const Book& book, const VisitAsked& asked);

} // namespace swarfbook::cli
