// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"
#include "record/book.h"

#include <cstdint>
#include <string>

/// `check --withdraw`: a reading that is of another thing than its known size says.
/// Checked: tests/cli/withdraw_test.cpp.
namespace swarfbook::cli {

struct CheckWithdrawal {
    std::int64_t number = 0; ///< of the reading in check --list
    ChangeReason reason;
    bool undo = false;
};

/// Throws UsageError for other options beside these and for text that is not a number.
CheckWithdrawal checkWithdrawalFrom(const ParsedOptions& words);

/// Withdraws the reading or brings it back; UsageErrors as Book::withdrawCheck.
/// @return what to tell, with the earlier reading of the same thing that counts again, if any.
std::string withdrawCheck(Book& book, const CheckWithdrawal& withdrawal);

} // namespace swarfbook::cli
