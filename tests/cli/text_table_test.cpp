// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_table.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace swarfbook::cli;

TEST_CASE("columns are aligned by characters, numbers to the right, no blanks at line ends") {
    CHECK(textTable({{"visit", "note"}, {"1", "grün"}, {"12", ""}, {"3", "two\nlines"}}) ==
          "visit  note\n"
          "    1  grün\n"
          "   12\n"
          "    3  two lines\n");
    CHECK(textTable({{"ü", "x"}, {"a", "-"}}) == "ü  x\na  -\n");
    CHECK(textTable({}).empty());
}

TEST_CASE("a long cell continues in the next lines, also a long word, and nothing is missing") {
    const std::string word(500, 'w');
    std::string joined;
    const std::string table = textTable({{"label", "note"}, {"A", "a " + word}, {"B", "-"}});
    std::istringstream lines(table);
    for (std::string line; std::getline(lines, line);) {
        CHECK(line.size() <= 7 + widestCell);
        joined += line.size() > 7 ? line.substr(7) : "";
    }
    CHECK(joined == "notea" + word + "-"); // the blank at the cut is not printed
    CHECK(textTable({{"a"}, {"x\x1b[2J"}}) == "a\nx\\u001b[2J\n");
}
