// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "architecture/project_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <set>

namespace fs = std::filesystem;
using swarfbook::test::contentOf;
using swarfbook::test::projectFolder;
using swarfbook::test::sourcesBelow;

namespace {

// What may lie at the top of the project, besides names that begin with a dot.
const std::set<std::string> topLevel{"CMakeLists.txt", "README.md",   "DEVELOPERS.md",
                                     "LICENSE",        "src",         "models",
                                     "calibration",    "demo-images", "tests"};
const std::set<std::string> notKept{"build", "compile_commands.json"}; // listed in .gitignore

/// The files and folders of tests/ that a header names: "tests/card/layout_test.cpp".
std::vector<std::string> testsNamedIn(const std::string& header) {
    static const std::regex path(R"(tests/[A-Za-z0-9_/.-]*[A-Za-z0-9_/])");
    return {std::sregex_token_iterator(header.begin(), header.end(), path), {}};
}

/// Whether a comment has "Checked:" without a file or folder of tests/ after it.
bool checkedByNothing(const std::string& header) {
    for (std::size_t at = header.find("Checked:"); at != std::string::npos;
         at = header.find("Checked:", at + 1)) {
        // Checked::good is a value
        const std::string after = header.substr(at, 120);
        if (!after.starts_with("Checked::") && after.find("tests/") == std::string::npos)
            return true;
    }
    return false;
}

long linesOf(const std::string& text) {
    return std::count(text.begin(), text.end(), '\n');
}

} // namespace

TEST_CASE("the top of the project holds nothing else") {
    for (const auto& entry : fs::directory_iterator(projectFolder)) {
        const std::string name = entry.path().filename().string();
        INFO(name);
        CHECK((name.starts_with('.') || topLevel.contains(name) || notKept.contains(name)));
    }
}

TEST_CASE("every source file keeps the house's limit of 400 lines and its two-line head") {
    for (const char* folder : {"src", "tests"})
        for (const fs::path& file : sourcesBelow(projectFolder / folder)) {
            const std::string text = contentOf(file);
            INFO(file.string());
            CHECK(text.starts_with("// Copyright"));
            CHECK(text.find("\n// SPDX-License-Identifier: Apache-2.0\n") == text.find('\n'));
            if (std::string(folder) == "src")
                CHECK(linesOf(text) <= 400);
        }
}

TEST_CASE("a header that names no test, or a test that does not exist, is noticed") {
    CHECK(testsNamedIn("/// Checked: tests/a/b_test.cpp.\n/// or tests/judgement/.") ==
          std::vector<std::string>{"tests/a/b_test.cpp", "tests/judgement/"});
    CHECK(checkedByNothing("/// Checked: by eye."));
    CHECK_FALSE(checkedByNothing("/// Checked:\n/// tests/a/b_test.cpp."));
    CHECK_FALSE(checkedByNothing("Checked::good"));
}

TEST_CASE("the tests that a header names exist") {
    int named = 0;
    for (const char* folder : {"src", "tests"})
        for (const fs::path& file : sourcesBelow(projectFolder / folder)) {
            if (file.extension() != ".h")
                continue;
            const std::string header = contentOf(file);
            INFO(file.string());
            CHECK_FALSE(checkedByNothing(header));
            for (const std::string& test : testsNamedIn(header)) {
                INFO(test);
                CHECK(fs::exists(projectFolder / test));
                ++named;
            }
        }
    CHECK(named > 100); // the reader reads
}

// Two tests that share a name in the temporary folder fail each other when they run side by side.
TEST_CASE("tests take names in the temporary folder only through the folder made for them") {
    const std::string name = "temp_directory_path";
    for (const fs::path& file : sourcesBelow(projectFolder / "tests"))
        if (file.filename() != "temporary_folder.h" && file.filename() != "house_test.cpp") {
            INFO(file.string());
            CHECK(contentOf(file).find(name) == std::string::npos);
        }
}

// How long something takes is measured in tests/benchmark: a test that times itself fails on a busy
// machine. Waiting for another process, with a limit, is allowed.
TEST_CASE("no test asserts how long something took") {
    static const std::regex timed(R"((CHECK|REQUIRE)\([^;]*(second|elapsed|duration|millis)[^;]*<)",
                                  std::regex::icase);
    for (const fs::path& file : sourcesBelow(projectFolder / "tests")) {
        const std::string text = contentOf(file);
        if (text.find("steady_clock") == std::string::npos || file.filename() == "house_test.cpp" ||
            fs::relative(file, projectFolder).string().starts_with("tests/benchmark"))
            continue;
        INFO(file.string());
        CHECK_FALSE(std::regex_search(text, timed));
    }
}

// A tag of another repository can be moved to other code; a whole commit cannot.
TEST_CASE("continuous integration names actions of others by their whole commit") {
    static const std::regex uses(R"(uses:\s*(\S+))"), whole(R"(.+@[0-9a-f]{40})");
    for (const auto& entry : fs::directory_iterator(projectFolder / ".github/workflows")) {
        const std::string workflow = contentOf(entry.path());
        for (std::sregex_iterator use(workflow.begin(), workflow.end(), uses), end; use != end;
             ++use) {
            INFO((*use)[1]);
            CHECK(std::regex_match((*use)[1].str(), whole));
        }
    }
}
