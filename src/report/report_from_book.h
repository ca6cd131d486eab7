// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"
#include "report/report_model.h"

#include <cstdint>
#include <filesystem>
#include <string>

namespace swarfbook {

struct ReportOptions {
    std::filesystem::path models; ///< folder with wear-score.json and suggestion.json
    std::string programVersion;
    std::string workshop;               ///< printed at the top; left out if ""
    bool withPlate = false;             ///< plate and VIN are left out unless asked for
    std::string address{}, telephone{}; ///< of the workshop, printed below its name
};

/// The whole content of a report on one visit, from the book and its judgement.
///
/// A photo whose original is missing or damaged keeps its numbers and loses its pictures; a finding
/// that cannot be read is left out. The report says so in words for a customer, without names or
/// folders of files; the book tells its user which file it is.
/// Throws EvidenceRefused for a visit with neither photo nor observation, UsageError for a visit
/// that is not in the book, ToolError for an unreadable book or model.
/// Checked: tests/report/report_from_book_test.cpp.
ReportModel reportFromBook(const Book& book, std::int64_t visitId, const ReportOptions& options);

} // namespace swarfbook
