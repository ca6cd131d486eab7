// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <filesystem>
#include <iosfwd>
#include <string>

namespace swarfbook::cli {

/// Asks for a unit question by question: questions to `talk`, answers from `answers`, one a line.
/// A bad answer is asked again with the reason; "back" takes the last one back. Every answer taken
/// is kept in `draft` at once, and an interview that was broken off goes on from there.
///
/// @return the whole chart; the draft is still there, for the caller to remove.
/// Throws EvidenceRefused when the answers end early, naming the draft and how to go on; ToolError
/// when the draft cannot be written.
ApplicationChart askForUnit(const std::string& unit, const std::filesystem::path& draft,
                            std::istream& answers, std::ostream& talk);

} // namespace swarfbook::cli
