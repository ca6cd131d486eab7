// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "architecture/project_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using swarfbook::test::contentOf;
using swarfbook::test::projectFolder;
using swarfbook::test::sourcesBelow;

namespace {

// The modules from bottom to top: the one place where this order is written for the machine.
const std::vector<std::string> moduleOrder{"base",   "photo", "card",      "debris", "magnet",
                                           "bench",  "trend", "judgement", "assess", "record",
                                           "report", "cli",   "web"};
// The two faces: each uses all below, and neither knows the other.
const std::set<std::string> faces{"cli", "web"};

std::optional<std::size_t> heightOf(const std::string& module) {
    const auto found = std::find(moduleOrder.begin(), moduleOrder.end(), module);
    if (found == moduleOrder.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - moduleOrder.begin());
}

/// Why a file of `user` may not include "module/..."; nullopt if it may.
std::optional<std::string> complaintAbout(const std::string& user, const std::string& used) {
    const auto from = heightOf(user), to = heightOf(used);
    if (!from || !to)
        return "unknown module";
    if (*to > *from)
        return "points up the order of modules";
    if (faces.contains(user) && faces.contains(used) && user != used)
        return "the two faces know each other";
    return std::nullopt;
}

/// The module of an #include "module/..." line; nullopt for any other line.
std::optional<std::string> includedModule(std::string line) {
    const std::string start = "#include\"";
    std::erase_if(line, [](unsigned char c) { return std::isspace(c) != 0; });
    const auto slash = line.find('/');
    if (!line.starts_with(start) || slash == std::string::npos)
        return std::nullopt;
    return line.substr(start.size(), slash - start.size());
}

/// The modules that a text includes, by its #include "module/..." lines.
std::vector<std::string> includedModules(std::istream& text) {
    std::vector<std::string> modules;
    for (std::string line; std::getline(text, line);)
        if (const auto module = includedModule(line))
            modules.push_back(*module);
    return modules;
}

/// The modules that the files of a folder include, its own left out.
std::set<std::string> modulesIncludedBy(const std::string& module) {
    std::set<std::string> included;
    for (const fs::path& file : sourcesBelow(projectFolder / "src" / module)) {
        std::ifstream text(file);
        for (const std::string& used : includedModules(text))
            if (used != module)
                included.insert(used);
    }
    return included;
}

/// The modules that add_module(... USES swarfbook_<module> ...) names.
std::set<std::string> modulesLinked(const std::string& cmake) {
    std::set<std::string> linked;
    const std::size_t from = cmake.find("USES"), to = cmake.find(')', from);
    if (from == std::string::npos || to == std::string::npos)
        return linked;
    std::istringstream words(cmake.substr(from + 4, to - from - 4));
    const std::string ours = "swarfbook_";
    for (std::string word; words >> word;)
        if (word.starts_with(ours))
            linked.insert(word.substr(ours.size()));
    return linked;
}

} // namespace

TEST_CASE("an arrow up the order, between the faces or to an unknown module is noticed") {
    CHECK_FALSE(complaintAbout("debris", "card"));
    CHECK_FALSE(complaintAbout("cli", "base"));
    CHECK_FALSE(complaintAbout("report", "report"));
    CHECK(complaintAbout("card", "debris"));
    CHECK(complaintAbout("assess", "record"));
    CHECK(complaintAbout("web", "cli"));
    CHECK(complaintAbout("cli", "web"));
    CHECK(complaintAbout("debris", "helpers"));
    std::istringstream text("#include <vector>\n#include \"card/layout.h\"\n  # include \"a/b.h\"\n"
                            "// #include \"no/no.h\"\n#include \"beside.h\"\n#define X\n#\n\n");
    CHECK(includedModules(text) == std::vector<std::string>{"card", "a"});
}

TEST_CASE("every include in src points down the order of modules") {
    const fs::path src = projectFolder / "src";
    std::size_t arrows = 0;
    for (const fs::path& file : sourcesBelow(src)) {
        const fs::path inside = fs::relative(file, src);
        std::ifstream text(file);
        REQUIRE(text);
        for (const std::string& used : includedModules(text)) {
            const auto complaint = complaintAbout(inside.begin()->string(), used);
            INFO(inside.string() << " includes \"" << used << "/...\": " << complaint.value_or(""));
            CHECK_FALSE(complaint);
            ++arrows;
        }
    }
    CHECK(arrows > 100); // the reader reads
}

TEST_CASE("every folder in src is a module of the order") {
    for (const auto& entry : fs::directory_iterator(projectFolder / "src")) {
        INFO(entry.path().string());
        if (entry.is_directory())
            CHECK(heightOf(entry.path().filename().string()));
        else
            CHECK(entry.path().filename() == "CMakeLists.txt");
    }
}

TEST_CASE("a module's own links are read from its build file") {
    CHECK(modulesLinked("add_module(x SOURCES swarfbook_no.cpp\n  USES swarfbook_card fmt::fmt\n"
                        "  swarfbook_base)\ntarget(swarfbook_cli)") ==
          std::set<std::string>{"base", "card"});
}

TEST_CASE("each module links the modules that it includes, and none besides") {
    for (const auto& entry : fs::directory_iterator(projectFolder / "src")) {
        if (!entry.is_directory())
            continue;
        const std::string module = entry.path().filename().string();
        INFO(module);
        CHECK(modulesLinked(contentOf(entry.path() / "CMakeLists.txt")) ==
              modulesIncludedBy(module));
    }
}
