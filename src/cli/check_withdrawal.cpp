// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/check_withdrawal.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace swarfbook::cli {
namespace {

/// A sentence for each reading that is in `now`, but not in `before`.
std::string countAgain(const std::vector<StoredCheck>& before,
                       const std::vector<StoredCheck>& now) {
    std::string sentences;
    for (const StoredCheck& one : now)
        if (std::none_of(before.begin(), before.end(),
                         [&](const StoredCheck& other) { return other.id == one.id; }))
            sentences += fmt::format(" Reading {}, an earlier one of the same thing in the same "
                                     "photo, counts again.",
                                     one.id);
    return sentences;
}

} // namespace

CheckWithdrawal checkWithdrawalFrom(const ParsedOptions& words) {
    if (!has(words, "withdraw"))
        throw UsageError("--why and --undo go with --withdraw: swarfbook check --withdraw 3 --why "
                         "\"another thing was read\".");
    allowOnly(words, "check --withdraw", {"withdraw", "why", "by", "undo", "book"});
    const std::string number = textOf(words, "withdraw");
    const bool digits = !number.empty() && number.size() <= 9 && // longer ones number no reading
                        number.find_first_not_of("0123456789") == std::string::npos;
    if (!digits)
        throw UsageError(fmt::format("\"{}\" is not the number of a reading. swarfbook check "
                                     "--list shows the numbers.",
                                     number));
    return {std::stoll(number), {textOf(words, "by"), textOf(words, "why")}, has(words, "undo")};
}

std::string withdrawCheck(Book& book, const CheckWithdrawal& withdrawal) {
    const std::int64_t number = withdrawal.number;
    BookTransaction transaction = book.begin();
    if (withdrawal.undo) {
        book.bringBackCheck(number, withdrawal.reason);
        transaction.commit();
        return fmt::format("Reading {} is back in every count.", number);
    }
    const std::vector<StoredCheck> before = book.checks();
    book.withdrawCheck(number, withdrawal.reason);
    const std::string again = countAgain(before, book.checks());
    transaction.commit();
    return fmt::format("Reading {0} is withdrawn: it stays in the book and counts nowhere. "
                       "swarfbook check --withdraw {0} --undo brings it back.{1}",
                       number, again);
}

} // namespace swarfbook::cli
