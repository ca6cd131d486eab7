// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed.h"
#include "web/asked.h"
#include "web/visit_rows.h"

#include <string>

/// A row of the work sheet as a form, and what was filled in.
/// Checked: tests/web/pages_test.cpp.
namespace swarfbook::web {

/// The fields of a row in HTML, filled in as `asked` says.
std::string rowFields(const SheetRow& row, const Asked& asked);

/// The observation that the form means, read as the walk reads its answers. UsageError for what
/// cannot be read, and where nothing was filled in.
Observation rowFilledIn(const SheetRow& row, const Asked& asked, Sure sure);

} // namespace swarfbook::web
