// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/card_serial.h"
#include "base/errors.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using Catch::Matchers::Contains;

TEST_CASE("a card is printed first and measured later") {
    Book book = Book::inMemory();
    const std::string serial = book.nextSerial();
    const PrintedCard printed = book.saveCard({serial, "close", std::nullopt, ""});
    CHECK(printed.printedAt.size() == 20);
    CHECK_FALSE(book.card(serial)->measuredBarMm.has_value());
    book.saveCard({serial, "", 79.6, ""});
    CHECK(book.card(serial)->measuredBarMm == 79.6);
    CHECK(book.card(serial)->layout == "close");
    CHECK(book.card(serial)->printedAt == printed.printedAt);
    book.saveCard({serial, "close", std::nullopt, ""});
    CHECK(book.card(serial)->measuredBarMm == 79.6); // the known bar is not lost
    CHECK(book.cards().size() == 1);
}

TEST_CASE("two books give different serials, and other serials do not get in the way") {
    Book book = Book::inMemory();
    book.saveCard({"C0041", "wide", std::nullopt, "2025-03-14T10:00:00Z"});
    for (const std::string serial : {"X9999", "C12B", "C99999999999999999999", "Card"})
        book.saveCard({serial, "close", std::nullopt, ""});
    const std::string serial = book.nextSerial();
    CHECK(isCodedSerial(serial));
    CHECK(serial != book.nextSerial());
    CHECK(book.card("C0041")->printedAt == "2025-03-14T10:00:00Z");
}

TEST_CASE("impossible values of a card are refused") {
    Book book = Book::inMemory();
    book.saveCard({"C0001", "close", std::nullopt, ""});
    CHECK_THROWS_WITH(book.saveCard({"c0001", "wide", std::nullopt, ""}), Contains("close card"));
    CHECK_THROWS_WITH(book.saveCard({"C0002", "", 79.6, ""}), Contains("--layout"));
    CHECK_THROWS_AS(book.saveCard({" ", "wide", std::nullopt, ""}), UsageError);
    for (const double bar : {-79.6, 0.0, std::nan("")})
        CHECK_THROWS_WITH(book.saveCard({"C0001", "close", bar, ""}), Contains("is impossible"));
    CHECK_FALSE(book.card("C0002").has_value());
}
