// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <filesystem>
#include <iosfwd>
#include <string>

namespace swarfbook::cli {

/// Asks for a unit question by question: questions to `talk`, answers from `answers`, one a line.
/// A bad answer is asked again with the reason; "back" takes the last one back. Every accepted
/// answer is kept in `draft` at once, and an interrupted interview continues from there.
///
/// @return the whole chart; the caller removes the draft. Throws EvidenceRefused if the answers end
///         early, naming the draft and how to continue; ToolError if the draft cannot be written.
ApplicationChart askForUnit(const std::string& unit, const std::filesystem::path& draft,
                            std::istream& answers, std::ostream& talk);

} // namespace swarfbook::cli
