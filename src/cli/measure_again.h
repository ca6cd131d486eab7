// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <cstdint>
#include <string>

namespace swarfbook::cli {

/// What became of a visit's photos: a line each, and the exit code.
struct MeasuredVisit {
    std::string told;
    int code;
};
/// Measures all photos of a visit again with this program and stores the findings beside the old
/// ones, all or none. A photo that is refused now but was measured before keeps its finding; so
/// does one whose original is lost, or that was moved while it was measured, and that is told.
MeasuredVisit measureAgain(Book& book, std::int64_t visitId);

} // namespace swarfbook::cli
