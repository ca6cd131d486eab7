// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <optional>
#include <string>

/// How every verb opens the book that --book names: the book's messages go to standard error, and
/// distances, temperatures, volumes and days are shown by its settings. Throws as Book::open does.
/// Checked: tests/cli/book_world_test.cpp.
namespace swarfbook::cli {

/// For reading only: nothing in it is written, and it need not be writable.
Book bookToRead(const std::optional<std::string>& named);

/// For writing.
Book bookToWrite(const std::optional<std::string>& named, IfNoBook ifNone = IfNoBook::refuse);

/// The same for a verb that measures first: it waits up to a minute for another program that
/// writes, rather than throw its work away.
Book bookToMeasureFor(const std::optional<std::string>& named, IfNoBook ifNone = IfNoBook::refuse);

} // namespace swarfbook::cli
