// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "scenario.h"
#include "typed_lines.h"
#include "unit/unit_table.h"

#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// One result of a test, as it is typed in, and the allowed suggestions then.
struct Answer {
    std::vector<std::string> lines, then;
};

/// A test that is asked for, by the words of its text, and how it can come out.
struct Asked {
    std::regex text;
    std::vector<Answer> answers;
};

/// A thing that is tested once, and the typed lines that record the test.
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

/// tests/judgement/next-tests.txt, whose head describes its form.
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

/// The unit of a case: its table of tests/cli/units, or Demo 5.
UnitKnown unitOf(const TypedCase& one) {
    const fs::path models = fs::path(SWARFBOOK_SOURCE_DIR) / "models";
    BenchTests tests = loadBenchTests(models / "bench-tests.json");
    if (one.unit.empty())
        return {loadApplicationChart(models / "units/demo-5.json"), std::move(tests)};
    std::ifstream in(unitTable(one.unit));
    const std::string table{std::istreambuf_iterator<char>(in), {}};
    return {unitFromTable(one.unit, table).chart, std::move(tests)};
}

/// Types in every possible result of the tests that are asked for.
class TestsInTurn {
  public:
    int asked = 0;
    std::string file;
    UnitKnown unit;
    /// A dead end: the file, what is wrong, and the test that was asked for.
    std::set<std::string> wrong;

    void from(const std::vector<std::string>& lines, int depth) {
        if (!seen_.insert(lines).second)
            return;
        Evidence evidence = evidenceOf(observationsOf(lines));
        evidence.unit = unit;
        const Suggestion now = suggest(evidence, suggestionModel());
        if (now.nextTest.empty())
            return;
        ++asked;
        checkNotDone(now.nextTest, lines);
        const auto test =
            std::find_if(table_.tests.begin(), table_.tests.end(), [&](const Asked& one) {
                return std::regex_search(now.nextTest, one.text);
            });
        if (test == table_.tests.end())
            note("not in the table", now.nextTest);
        if (test == table_.tests.end() || depth == 0)
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
    void note(const std::string& what, const std::string& test) {
        wrong.insert(file + ": " + what + ": " + test);
    }

    void checkNotDone(const std::string& test, const std::vector<std::string>& lines) {
        const std::vector<std::string> standing = standingLines(lines);
        for (const Subject& subject : table_.subjects) {
            const bool done =
                std::any_of(standing.begin(), standing.end(), [&](const std::string& line) {
                    return std::regex_search(line, subject.done);
                });
            if (done && std::regex_search(test, subject.asked))
                note("asked for though " + subject.name + " was done", test);
        }
    }

    void checkAnswered(const std::vector<std::string>& lines, const Answer& answer,
                       const std::string& test) {
        Evidence evidence = evidenceOf(observationsOf(lines));
        evidence.unit = unit;
        const Suggestion said = suggest(evidence, suggestionModel());
        if (said.nextTest == test)
            note("asked for again", test);
        const std::string outcome(recommendationName(said.outcome));
        if (!answer.then.empty() &&
            std::find(answer.then.begin(), answer.then.end(), outcome) == answer.then.end())
            note("answered with \"" + outcome + "\"", test);
    }

    Table table_ = readTable();
    std::set<std::vector<std::string>> seen_;
};

} // namespace

TEST_CASE("no test that was done is asked for again, whatever the answers before it") {
    TestsInTurn walk;
    const auto walkFrom = [&](const fs::path& file, const TypedCase& first,
                              const std::vector<std::string>& then) {
        std::vector<std::string> lines = first.lines;
        lines.insert(lines.end(), then.begin(), then.end());
        walk.file = file.filename();
        walk.unit = unitOf(first);
        walk.from(lines, 3);
    };
    for (const fs::path& file : caseFiles("typed"))
        walkFrom(file, readCase(file), {});
    for (const fs::path& file : caseFiles("turned")) {
        const TypedCase one = readCase(file);
        walkFrom(file, readCase(typedFolder("typed") / one.after), one.lines);
    }
    CHECK(walk.wrong == std::set<std::string>());
    CHECK(walk.asked > 250); // the walk goes somewhere: 258 three answers deep
}
