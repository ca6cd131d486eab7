// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <nlohmann/json.hpp>

#include <string>

namespace swarfbook::cli {

/// What each pass of a flush washed out, and the verdict, as lines for a terminal.
/// Checked: tests/cli/flush_test.cpp.
std::string flushText(const Book& book, const StoredFlush& flush);

/// All flushes of a visit, those without a pass too.
std::string flushesText(const Book& book, std::int64_t visitId);
/// The same as the document "swarfbook flush 1". Lengths are mm, areas mm2; what is not known is
/// null. `passes[].ratio` is the pass over all passes so far, 0 to 1.
nlohmann::ordered_json flushesJson(const Book& book, std::int64_t visitId);

} // namespace swarfbook::cli
