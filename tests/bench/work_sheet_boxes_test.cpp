// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/work_sheet.h"

#include <catch2/catch.hpp>

#include <cctype>
#include <fstream>
#include <map>
#include <sstream>

using namespace swarfbook;

namespace {

using Style = SheetField::Style;

/// What is printed in a box or beside it, one text for each box of the field.
std::vector<std::string> boxesOf(const SheetField& field) {
    if (field.use == SheetField::Use::asked)
        return {};
    if (field.style == Style::yesNo)
        return {"y", "n"};
    if (field.style == Style::tick)
        return {"ticked"};
    if (field.style != Style::letters)
        return field.words;
    std::vector<std::string> letters;
    for (const std::string& word : field.words)
        letters.emplace_back(1, static_cast<char>(std::toupper(word[0])));
    return letters;
}

/// What has to be said before a box of another field can be typed.
const std::map<std::string, std::string>& wordsBefore() {
    static const std::map<std::string, std::string> words{
        {"complaint", "slip"}, {"gear", "slip"},         {"shift", "flare"},
        {"noise", "whine"},    {"level", "low"},         {"outside", "fault"},
        {"debris", "paste"},   {"magnet-test", "moves"}, {"codes", "none"},
        {"pressure", "low"},   {"end-play", "normal"},   {"outcome", "fixed"},
        {"road-test", "slip"}, {"level-check", "right"}, {"refill", "4l"},
        {"magnets", "2"}};
    return words;
}

/// The box typed just as it stands, after what the row says already.
TypedLine typedAs(const SheetBlock& block, const SheetEntry& entry, const SheetField& field,
                  const std::string& box) {
    TypedLine line{block.form, entry.given, {}};
    const ObservationForm& form = observationForm(block.form);
    if (line.values.empty() && !form.words.empty() && form.words.front().field == "name")
        line.values = {"A"};
    if (line.values.empty() && block.form == "air-check")
        line.values = {"P"};
    const bool isWord = std::any_of(form.words.begin(), form.words.end(), [&](const auto& word) {
        return word.field == field.field->name;
    });
    const auto before = wordsBefore().find(block.form);
    if (isWord)
        line.values.push_back(box);
    else if (before != wordsBefore().end())
        line.values.push_back(before->second);
    if (!isWord)
        line.options[std::string(field.field->about.option)] = field.field->flag ? "" : box;
    return line;
}

/// "gear, symptom, no drive" and what is stored.
std::map<std::string, std::string> expectedBoxes() {
    std::ifstream in(std::string(SWARFBOOK_SOURCE_DIR) + "/tests/bench/sheet-boxes.txt");
    std::map<std::string, std::string> expected;
    for (std::string line; std::getline(in, line);)
        if (const auto at = line.find(" = "); !line.starts_with("#") && at != std::string::npos)
            expected[line.substr(0, at)] = line.substr(at + 3);
    return expected;
}

std::string storedAs(const TypedLine& line, const SheetField& field) {
    const Observation observation = observationTyped(line);
    if (std::holds_alternative<NotInspected>(observation))
        return "not inspected";
    const auto document = toJson(observation);
    const std::string name(field.field->name);
    return document.contains(name) ? document.at(name).dump() : "nothing";
}

} // namespace

// sheet-boxes.txt says of every box what a specialist means by it: written by hand, box by box.
TEST_CASE("every box of the work sheet, typed as it stands there, says what it stands for") {
    const auto expected = expectedBoxes();
    std::map<std::string, int> seen;
    for (const SheetSection& section : workSheetSections({}))
        for (const SheetBlock& block : section.blocks)
            for (const SheetField& field : block.fields)
                for (const std::string& box : boxesOf(field)) {
                    const SheetEntry entry =
                        block.entries.empty() ? SheetEntry{} : block.entries.front();
                    const std::string name =
                        block.form + ", " + std::string(field.field->name) + ", " + box;
                    INFO(name);
                    ++seen[name];
                    REQUIRE(expected.contains(name));
                    CHECK(storedAs(typedAs(block, entry, field, box), field) == expected.at(name));
                }
    CHECK(seen.size() == expected.size()); // each line of the table has its box
}

TEST_CASE("a row that was not inspected is typed as such, whatever it is of") {
    for (const SheetSection& section : workSheetSections({}))
        for (const SheetBlock& block : section.blocks)
            for (const SheetEntry& entry : block.entries)
                for (const char* said : {"not inspected", "not-inspected", "n/i", "not driven"}) {
                    TypedLine line{block.form, entry.given, {}};
                    line.values.emplace_back(said);
                    INFO(block.form << " " << said);
                    CHECK(std::holds_alternative<NotInspected>(observationTyped(line)));
                }
}
