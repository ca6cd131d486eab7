// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/learned_cases.h"

#include "base/errors.h"
#include "bench/after_repair_fields.h"
#include "record/evidence_of_visit.h"

namespace swarfbook {

std::vector<LearnedCase> learnedCases(const Book& book, const SuggestionModel& model) {
    std::vector<LearnedCase> cases;
    for (const std::int64_t visit : book.visitsWith(std::string(fields::Of<RepairOutcome>::kind))) {
        // earlier visits have no say in which step is suggested, only in its reasons
        Evidence evidence;
        try {
            evidence.now = evidenceOfOneVisit(book, book.visit(visit));
        } catch (const ToolError& damaged) {
            book.sayLeftOut(std::string("A case to learn from was left out. ") + damaged.what());
            continue;
        }
        if (const auto one = learnedCase(evidence, model))
            cases.push_back(*one);
    }
    return cases;
}

} // namespace swarfbook
