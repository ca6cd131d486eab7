// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <boost/program_options/variables_map.hpp>

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>

/// Reading a verb's words. Each throws UsageError with a sentence that says what to type instead.
/// Checked: tests/cli/words_test.cpp.
namespace swarfbook::cli {

using ParsedOptions = boost::program_options::variables_map;

/// Whether the option was given.
bool has(const ParsedOptions& words, const std::string& name);
/// The option's text, "" when it was not given.
std::string textOf(const ParsedOptions& words, const std::string& name);
/// The option's text, nothing when it was not given.
std::optional<std::string> maybeTextOf(const ParsedOptions& words, const std::string& name);
/// The name of a file, "" when the option was not given; given without a name it is refused.
std::string fileNameOf(const ParsedOptions& words, const std::string& name);
/// A number in plain decimal notation, "120000" or "79.6"; the error shows `example`.
std::optional<double> numberOf(const ParsedOptions& words, const std::string& name,
                               std::string_view example);
/// A distance in kilometres: a plain number is in kilometres, or in miles if `miles` is true; a
/// typed unit ("75000mi", "120 500 km") comes first. `example` as above.
std::optional<double> kilometresOf(const ParsedOptions& words, const std::string& name, bool miles,
                                   std::string_view example);
/// The number of a visit, a whole number from 1 on. `text` as typed.
std::int64_t visitNumber(const std::string& text);
/// One of the places; refuses a missing or unknown place and names all places.
Place placeOf(const ParsedOptions& words);
/// A place as --place takes it: "white-card".
std::string placeOption(Place place);
/// Refuses options that do not apply here. `use` is the verb with its action, "vehicle add".
void allowOnly(const ParsedOptions& words, std::string_view use,
               const std::set<std::string>& allowed);

} // namespace swarfbook::cli
