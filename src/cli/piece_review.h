// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/outputs.h"
#include "record/book.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <istream>
#include <ostream>
#include <string>

namespace swarfbook::cli {

/// What is to be walked through.
struct ReviewAsked {
    std::int64_t photo = 0;
    std::string by;               ///< who answers, "" when not said
    std::filesystem::path folder; ///< where the crops go; it is there
    IfThere ifThere = IfThere::refuse;
    bool toTerminal = false; ///< answers and talk are the terminal's
};

/// How many pieces were answered for, and the place where it was stopped.
struct ReviewEnd {
    int corrected = 0, asked = 0;
    bool stopped = false; ///< or there were no more answers
};

using ReviewPieces =
    std::function<ReviewEnd(Book&, const ReviewAsked&, std::istream&, std::ostream&)>;

/// Walks through the doubtful pieces of a photo and its five largest, those left out that a hand
/// has corrected: each is shown by a crop in a file, and
/// in the terminal where that shows pictures (terminal_picture.h); each answer is kept at once as
/// `piece --is` keeps it. An empty answer leaves a piece as it was measured, "undo" takes the last
/// answer back and asks anew, "stop" ends it. Throws EvidenceRefused for a photo that has no
/// pieces, or whose original is lost.
/// Checked: tests/cli/piece_test.cpp.
ReviewEnd reviewPieces(Book& book, const ReviewAsked& asked, std::istream& answers,
                       std::ostream& talk);

} // namespace swarfbook::cli
