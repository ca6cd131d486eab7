// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "scenario.h"
#include "typed_lines.h"

#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// One way a test can come out, as it is typed in, and what the tool may say then.
struct Answer {
    std::vector<std::string> lines, then;
};

/// A test that is asked for, by the words of its text, and how it can come out.
struct Asked {
    std::regex text;
    std::vector<Answer> answers;
};

/// Something that is tested once, and the lines typed in that say that it was.
struct Subject {
    std::string name;
    std::regex asked, done;
};

struct Table {
    std::vector<Asked> tests;
    std::vector<Subject> subjects;
};

std::vector<std::string> partsAt(const std::string& text, const std::string& between) {
    std::vector<std::string> parts;
    for (std::size_t from = 0;;) {
        const std::size_t at = text.find(between, from);
        parts.push_back(text.substr(from, at - from));
        if (at == std::string::npos)
            return parts;
        from = at + between.size();
    }
}

/// tests/judgement/next-tests.txt, whose head says how it is written.
Table readTable() {
    std::ifstream in(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/judgement/next-tests.txt");
    Table table;
    for (std::string line; std::getline(in, line);) {
        if (line.empty() || line.starts_with("#"))
            continue;
        if (line.starts_with("asked: ")) {
            table.tests.push_back({std::regex(line.substr(7)), {}});
        } else if (line.starts_with("once: ")) {
            const auto parts = partsAt(line.substr(6), " | ");
            table.subjects.push_back(
                {parts.at(0), std::regex(parts.at(1)), std::regex(parts.at(2))});
        } else {
            const auto parts = partsAt(line, " -> ");
            Answer answer{partsAt(parts.at(0), " ; "), {}};
            if (parts.size() > 1)
                answer.then = partsAt(parts.at(1), " / ");
            table.tests.back().answers.push_back(answer);
        }
    }
    return table;
}

const UnitKnown& demoFive() {
    static const UnitKnown unit{
        loadApplicationChart(fs::path(SWARFBOOK_SOURCE_DIR) / "models/units/demo-5.json"),
        loadBenchTests(fs::path(SWARFBOOK_SOURCE_DIR) / "models/bench-tests.json")};
    return unit;
}

/// Types in every way in which the tests that are asked for can come out.
class TestsInTurn {
  public:
    int asked = 0;

    void from(const std::vector<std::string>& lines, int depth) {
        if (!seen_.insert(lines).second)
            return;
        Evidence evidence = evidenceOf(observationsOf(lines));
        evidence.unit = demoFive();
        const Suggestion now = suggest(evidence, suggestionModel());
        if (now.nextTest.empty())
            return;
        ++asked;
        INFO(textOf(lines) << "-> " << headline(now) << "\n   " << now.nextTest);
        checkNotDone(now.nextTest, lines);
        const auto test =
            std::find_if(table_.tests.begin(), table_.tests.end(), [&](const Asked& one) {
                return std::regex_search(now.nextTest, one.text);
            });
        const bool known = test != table_.tests.end();
        CHECK(known);
        if (!known || depth == 0)
            return;
        std::smatch parts;
        std::regex_search(now.nextTest, parts, test->text);
        for (const Answer& answer : test->answers) {
            std::vector<std::string> then = lines;
            for (const std::string& line : answer.lines)
                then.push_back(parts.format(line));
            checkAnswered(then, answer, now.nextTest);
            from(then, depth - 1);
        }
    }

  private:
    static std::string textOf(const std::vector<std::string>& lines) {
        std::string text;
        for (const std::string& line : lines)
            text += line + "\n";
        return text;
    }

    void checkNotDone(const std::string& test, const std::vector<std::string>& lines) const {
        const std::vector<std::string> standing = standingLines(lines);
        for (const Subject& subject : table_.subjects) {
            if (!std::regex_search(test, subject.asked))
                continue;
            INFO(subject.name << " is asked for though it was done");
            CHECK(std::none_of(standing.begin(), standing.end(), [&](const std::string& line) {
                return std::regex_search(line, subject.done);
            }));
        }
    }

    static void checkAnswered(const std::vector<std::string>& lines, const Answer& answer,
                              const std::string& asked) {
        Evidence evidence = evidenceOf(observationsOf(lines));
        evidence.unit = demoFive();
        const Suggestion said = suggest(evidence, suggestionModel());
        INFO(textOf(lines) << "is what was typed in, then " << headline(said) << "\n   "
                           << said.nextTest);
        CHECK(said.nextTest != asked);
        const std::string outcome(outcomeName(said.outcome));
        CHECK((answer.then.empty() ||
               std::find(answer.then.begin(), answer.then.end(), outcome) != answer.then.end()));
    }

    Table table_ = readTable();
    std::set<std::vector<std::string>> seen_;
};

} // namespace

// Known to fail: after 14 of some 1,060 answers the same test is asked for again, or what is said
// is not what the table has. The tag goes once they are mended.
TEST_CASE("no test is asked for that was done, whatever the answers before it", "[!mayfail]") {
    TestsInTurn walk;
    for (const fs::path& file : caseFiles("typed")) {
        INFO(file.filename());
        walk.from(readCase(file).lines, 3);
    }
    for (const fs::path& file : caseFiles("turned")) {
        INFO(file.filename());
        const TypedCase one = readCase(file);
        std::vector<std::string> lines = readCase(typedFolder("typed") / one.after).lines;
        lines.insert(lines.end(), one.lines.begin(), one.lines.end());
        walk.from(lines, 3);
    }
    CHECK(walk.asked > 300); // the walk goes somewhere
}
