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

/// What to review.
struct ReviewAsked {
    std::int64_t photo = 0;
    std::string by;               ///< who answers, "" when not said
    std::filesystem::path folder; ///< existing folder for the crops
    IfThere ifThere = IfThere::refuse;
    bool toTerminal = false; ///< answers and talk are the terminal's
};

/// How many pieces were answered, and where the review was stopped.
struct ReviewEnd {
    int corrected = 0, asked = 0;
    bool stopped = false; ///< or the answers ended
};

using ReviewPieces =
    std::function<ReviewEnd(Book&, const ReviewAsked&, std::istream&, std::ostream&)>;

/// Walks through the doubtful pieces of a photo and its five largest, without pieces already
/// corrected by hand. Each is shown by a crop in a file, and in the terminal if that shows pictures
/// (terminal_picture.h). Each answer is kept at once as `piece --is` keeps it. An empty answer
/// leaves a piece as it was measured, "undo" takes the last answer back and asks anew, "stop" ends
/// it. Throws EvidenceRefused for a photo that has no pieces, or whose original is lost. Checked:
/// tests/cli/piece_test.cpp.
ReviewEnd reviewPieces(Book& book, const ReviewAsked& asked, std::istream& answers,
                       std::ostream& talk);

} // namespace swarfbook::cli
