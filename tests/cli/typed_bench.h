// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/case_files.h"
#include "cli/run_words_here.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace swarfbook::test {

/// A book with one vehicle and one visit, and the program on it.
class Bench {
  public:
    /// @param table  of tests/cli/units that the unit's chart is read from, "" for Demo 5
    explicit Bench(const std::string& table = "") {
        const std::string unit = table.empty() ? "Demo 5" : std::filesystem::path(table).stem();
        if (!table.empty()) {
            const ProgramResult read = run({"unit", "new", unit, "--from-table", unitTable(table)});
            INFO(read.err);
            REQUIRE(read.exit == 0);
        }
        run({"vehicle", "add", "DEMO-03", "--unit", unit});
        run({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--odometer", "120500"});
    }
    ProgramResult run(std::vector<std::string> words, const std::string& input = "") const {
        words.insert(words.end(), {"--book", (folder_.path() / "book").string()});
        RunOptions options;
        options.input = input;
        return runWordsHere(words, options);
    }
    ProgramResult observe(std::vector<std::string> words, const std::string& visit = "1") const {
        words.insert(words.begin(), {"observe", "--visit", visit});
        return run(words);
    }
    /// A line as it is typed after "swarfbook observe --visit 1".
    ProgramResult observe(const std::string& line) const { return observe(wordsOf(line)); }
    nlohmann::json suggestion(const std::string& visit = "1") const {
        const ProgramResult said = run({"suggest", "--visit", visit, "--json"});
        INFO(said.err);
        REQUIRE(said.exit == 0);
        return nlohmann::json::parse(said.out);
    }
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }

  private:
    TemporaryFolder folder_;
};

} // namespace swarfbook::test
