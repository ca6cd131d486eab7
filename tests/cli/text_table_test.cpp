// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_table.h"

#include <catch2/catch.hpp>

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
