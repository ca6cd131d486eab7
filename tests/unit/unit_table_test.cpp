// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/chart_check.h"
#include "unit/separated_text.h"
#include "unit/unit_table.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using Catch::Contains;

namespace {

/// The example of the help, its indented lines.
std::string helpsExample() {
    std::string example, line;
    for (const char c : unitTableHelp()) {
        if (c != '\n') {
            line += c;
            continue;
        }
        if (line.starts_with("    "))
            example += line.substr(4) + "\n";
        line.clear();
    }
    return example;
}

std::string withSeparator(std::string text, char separator) {
    std::replace(text.begin(), text.end(), ',', separator);
    return text;
}

} // namespace

TEST_CASE("the help's own example is a sound chart, whatever separates its cells") {
    const UnitTable table = unitFromTable("Trial 3", helpsExample());
    CHECK(table.assumed.empty());
    CHECK(inconsistencies(table.chart) == std::vector<std::string>{});
    CHECK(table.chart.gears.size() == 5);
    CHECK(table.chart.gear("1 by hand")->manualRange);
    CHECK(table.chart.solenoid("B")->feeds.size() == 2);
    CHECK_FALSE(table.chart.solenoid("B")->feeds[1].risesWhenOn);
    CHECK(table.chart.solenoid("A")->bandHigh->value() == 15.0);
    CHECK(table.chart.bores.at(0).solenoid == "B");
    CHECK(table.chart.bores.at(0).feeds == std::vector<std::string>{"X", "Y"});
    CHECK(table.chart.source == "manual page 12");
    CHECK(table.chart.levelFrom->value() == Approx(35.0).margin(1e-9));
    for (const char separator : {';', '\t'})
        CHECK(toJson(unitFromTable("Trial 3", withSeparator(helpsExample(), separator)).chart) ==
              toJson(table.chart));
}

TEST_CASE("plain titles are taken for clutches and, by their cells, for solenoids") {
    const UnitTable table =
        unitFromTable("T", "gear;P;X;s1\r\n1;x;;on\r\n2;x;(x);off\r\n3;1;1;mod\r\n");
    CHECK(table.chart.elements.size() == 2);
    CHECK(table.chart.solenoids.size() == 1);
    CHECK(table.chart.gear("2")->elements.at("X") == Applied::idle);
    CHECK(table.chart.gear("3")->solenoids.at("s1") == SolenoidCommand::modulated);
    REQUIRE(table.assumed.size() == 2);
    CHECK_THAT(table.assumed[1], Contains("X is taken for a clutch"));
}

TEST_CASE("a table that is not understood is refused with line, column and what to write") {
    const auto refuses = [](const std::string& text, const std::string& where,
                            const std::string& says) {
        INFO(text);
        CHECK_THROWS_WITH(unitFromTable("T", text), Contains(where) && Contains(says));
        CHECK_THROWS_AS(unitFromTable("T", text), UsageError);
    };
    refuses("", "titles", "two gears");
    refuses("gear,clutch P\n1,x\n", "titles", "two gears");
    refuses("gear,clutch P\n1,maybe\n2,x\n", "Line 2, column P", "maybe");
    refuses("gear,clutch P,solenoid A\n1,x,on\n2,x,perhaps\n", "Line 3, column A", "on, off");
    refuses("gear,clutch P\n1,x\n1,x\n", "Line 3", "twice");
    refuses("gear,clutch P\n1,x\n2,x,x\n", "Line 3, column 3", "no title");
    refuses("gear,clutch P,\n1,x\n2,x\n", "column 3", "no title");
    refuses("gear,clutch P,clutch P\n1,x\n2,x\n", "Line 1", "twice");
    refuses("gear,solenoid A\n1,on\n2,off\n", "Line 1", "no column is an element");
    refuses("gear,clutch P,solenoid A\n1,x,on\n2,x,off\nfeeds,,+Z\n", "Line 4, column A", "Z");
    refuses("gear,clutch P,solenoid A\n1,x,on\n2,x,off\nband,11-15\n", "Line 4, column P",
            "solenoids only");
    refuses("gear,clutch P\n1,x\n2,x\nfluid,much\n", "Line 4", "much");
    refuses("gear,clutch P\n1,x\n2,\"x\n", "Line 3", "quote");
}

// RFC 4180, section 2: quotes, doubled quotes, line ends in quotes.
TEST_CASE("quoted cells are read by the standard") {
    const SeparatedText text = separatedText("\xEF\xBB\xBF"
                                             "a,\"b, \"\"c\"\"\",\"d\r\ne\"\r\n\r\nf,g\n");
    REQUIRE(text.rows.size() == 2);
    CHECK(text.rows[0].cells == std::vector<std::string>{"a", "b, \"c\"", "d\r\ne"});
    CHECK(text.rows[1].cells == std::vector<std::string>{"f", "g"});
    CHECK(text.rows[1].line == 4);
}

TEST_CASE("no sequence of bytes makes the reader crash") {
    std::uint32_t state = 12345;
    const std::string letters = "gear,clutch P;brake X\tsolenoid A\n1x\"on off()+-\r\0\xff";
    for (int round = 0; round < 3000; ++round) {
        std::string text = round % 2 == 0 ? "gear,clutch P,solenoid A\n1,x,on\n2,x,off\n" : "";
        for (int i = 0; i < 60; ++i) {
            state = state * 1664525U + 1013904223U;
            text += letters[(state >> 16) % letters.size()];
        }
        try {
            static_cast<void>(unitFromTable("T", text));
        } catch (const UsageError& refused) {
            CHECK_FALSE(std::string(refused.what()).empty());
        }
    }
}
