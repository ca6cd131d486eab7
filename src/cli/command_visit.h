// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"
#include "cli/measure_again.h"
#include "record/book.h"

#include <cstdint>
#include <functional>

namespace swarfbook::cli {

/// Measures all photos of a visit again.
using MeasureVisit = std::function<MeasuredVisit(Book& book, std::int64_t visitId)>;

/// visit add | list | show | correct | measure.
/// @param measure  what `visit measure` does; empty in the quick program, which hands that over
CommandEntry visitEntry(MeasureVisit measure);

} // namespace swarfbook::cli
