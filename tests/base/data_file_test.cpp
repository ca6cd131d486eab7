// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/data_file.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook;
using Catch::Contains;
using swarfbook::test::TemporaryFile;

namespace {

int numberIn(const std::filesystem::path& file) {
    return readDataFile("The test's number", file, [](const nlohmann::json& document) {
        checkFormat(document, "swarfbook number 1");
        return document.at("number").get<int>();
    });
}

} // namespace

TEST_CASE("one of the program's own files is read") {
    const TemporaryFile good(R"({"format": "swarfbook number 1", "number": 7})");
    CHECK(numberIn(good.path()) == 7);
}

TEST_CASE("a missing or wrong file of the program's own is reported with what to do") {
    const auto checkTold = [](const std::filesystem::path& file, const std::string& what) {
        INFO(what);
        CHECK_THROWS_AS(numberIn(file), ToolError);
        CHECK_THROWS_WITH(numberIn(file),
                          Contains("The test's number " + file.string()) && Contains(what) &&
                              Contains("Install swarfbook again") && Contains("SWARFBOOK_DATA"));
    };
    checkTold("/nowhere/number.json", "cannot be read");
    const auto checkWrong = [&](const std::string& content, const std::string& why) {
        const TemporaryFile file(content);
        checkTold(file.path(), "cannot be used");
        checkTold(file.path(), why);
    };
    checkWrong("", "parse");
    checkWrong("{", "parse");
    checkWrong(R"({"number": 7})", "format");
    checkWrong(R"({"format": "another 2"})", "another format");
    checkWrong(R"({"format": "swarfbook number 1"})", "number");
    checkWrong(R"({"format": "swarfbook number 1", "number": ""})", "type must be number");
}
