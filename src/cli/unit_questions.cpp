// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/unit_questions.h"

#include "base/errors.h"
#include "base/output_file.h"
#include "base/regular_file.h"
#include "base/text.h"
#include "record/entry_text.h"
#include "unit/chart_words.h"
#include "unit/unit_interview.h"

#include <fmt/format.h>

#include <fstream>
#include <istream>
#include <ostream>
#include <span>

namespace swarfbook::cli {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> answersKept(const fs::path& draft) {
    std::vector<std::string> answers;
    if (!whyNotReadable(draft).empty())
        return answers;
    std::ifstream in(draft);
    for (std::string line; std::getline(in, line);)
        answers.push_back(line);
    return answers;
}

void keep(const fs::path& draft, const std::vector<std::string>& answers) {
    std::string lines;
    for (const std::string& answer : answers)
        lines += answer + "\n";
    writeFile(draft, std::as_bytes(std::span(lines)), IfThere::replace);
}

/// One line as typed; false at the end of input.
bool readAnswer(std::istream& answers, std::string& line) {
    if (!std::getline(answers, line))
        return false;
    line = trimmed(line);
    return true;
}

} // namespace

ApplicationChart askForUnit(const std::string& unit, const fs::path& draft, std::istream& answers,
                            std::ostream& talk) {
    std::vector<std::string> given = answersKept(draft);
    InterviewStep step = interview(unit, given);
    if (!given.empty())
        talk << fmt::format("Going on with {} answers kept in {}\n", step.taken, draft.string());
    given.resize(step.taken);
    talk << "Type one line for each question. \"back\" takes the last answer back; \"stop\" stops "
            "and "
            "keeps the answers.\n";
    while (!step.finished) {
        talk << step.question << "\n> " << std::flush;
        std::string line;
        const bool ended = !readAnswer(answers, line);
        if (ended)
            talk << "\n";
        if (ended || line == "stop")
            throw EvidenceRefused(fmt::format(
                "Stopped early; {} answer{} saved in {}. Go on any time with: swarfbook unit new "
                "\"{}\".",
                given.size(), given.size() == 1 ? " is" : "s are", draft.string(), unit));
        if (line == "back") {
            if (!given.empty())
                given.pop_back();
        } else {
            try {
                given.push_back(checkedLine("The answer", line, 2000));
            } catch (const UsageError& wrong) {
                talk << wrong.what() << "\n";
                continue;
            }
        }
        step = interview(unit, given);
        if (!step.wrong.empty())
            talk << step.wrong << "\n";
        given.resize(step.taken);
        keep(draft, given);
    }
    return step.chart;
}

} // namespace swarfbook::cli
