// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("settings come back as they were kept, and the later ones replace the earlier") {
    Book book = Book::inMemory();
    CHECK(book.settings().workshop.empty());
    book.keepSettings({"Kestrel Lane Transmissions", "1 Kestrel Lane", "000 1234", "letter"});
    book.keepSettings({"Kestrel Lane Transmissions", "2 Kestrel Lane", "", "letter"});
    const WorkshopSettings settings = book.settings();
    CHECK(settings.workshop == "Kestrel Lane Transmissions");
    CHECK(settings.address == "2 Kestrel Lane");
    CHECK(settings.telephone.empty());
    CHECK(settings.paper == "letter");
}

TEST_CASE("an unknown paper, and text that cannot be printed, are refused and change nothing") {
    Book book = Book::inMemory();
    book.keepSettings({"Kestrel Lane Transmissions", "", "", ""});
    CHECK_THROWS_AS(book.keepSettings({"", "", "", "a5"}), UsageError);
    CHECK_THROWS_AS(book.keepSettings({"a\x1b[2J", "", "", ""}), UsageError);
    CHECK_THROWS_AS(book.keepSettings({std::string(5000, 'x'), "", "", ""}), UsageError);
    CHECK(book.settings().workshop == "Kestrel Lane Transmissions");
}
