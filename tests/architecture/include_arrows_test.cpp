// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "architecture/project_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
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
const std::vector<std::string> moduleOrder{
    "base",   "particles", "photo", "card",        "network", "debris",    "magnet",
    "gauge",  "bench",     "unit",  "elimination", "trend",   "judgement", "assess",
    "record", "report",    "entry", "web",         "cli"};
// The two faces use all below. The pages know nothing of the verbs, and of the verbs this one
// alone, which starts them, knows the pages.
const std::string startsThePages = "command_serve.cpp";
// Those that judge what was counted and typed: neither they nor what they link needs a library that
// looks at pictures.
const std::vector<std::string> withoutPictures{"particles",   "bench", "unit",
                                               "elimination", "trend", "judgement"};

std::optional<std::size_t> heightOf(const std::string& module) {
    const auto found = std::find(moduleOrder.begin(), moduleOrder.end(), module);
    if (found == moduleOrder.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - moduleOrder.begin());
}

/// Why a file of `user` may not include "module/..."; nullopt if it may.
std::optional<std::string> complaintAbout(const std::string& user, const std::string& used,
                                          const std::string& file = "") {
    const auto from = heightOf(user), to = heightOf(used);
    if (!from || !to)
        return "unknown module";
    if (*to > *from)
        return "points up the order of modules";
    if (user == "cli" && used == "web" && file != startsThePages)
        return "a verb that does not start the pages knows them";
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

/// The modules that a folder's files with this ending include, its own left out.
std::set<std::string> modulesIncludedBy(const std::string& module, const std::string& ending) {
    std::set<std::string> included;
    for (const fs::path& file : sourcesBelow(projectFolder / "src" / module)) {
        if (file.extension() != ending)
            continue;
        std::ifstream text(file);
        for (const std::string& used : includedModules(text))
            if (used != module)
                included.insert(used);
    }
    return included;
}

/// What one add_module(...) says of a library.
struct Library {
    std::set<std::string> uses;   ///< after USES: for its headers
    std::set<std::string> inside; ///< after PRIVATE: for its .cpp files alone
    [[nodiscard]] std::set<std::string> all() const {
        std::set<std::string> both = uses;
        both.insert(inside.begin(), inside.end());
        return both;
    }
};

/// The libraries that a build file adds, by name: "swarfbook_card".
std::map<std::string, Library> librariesOf(const std::string& cmake) {
    std::map<std::string, Library> libraries;
    const std::string start = "add_module(";
    for (std::size_t at = cmake.find(start); at != std::string::npos; at = cmake.find(start, at)) {
        at += start.size();
        std::istringstream words(cmake.substr(at, cmake.find(')', at) - at));
        std::string name, section;
        words >> name;
        Library& library = libraries["swarfbook_" + name];
        for (std::string word; words >> word;)
            if (word == "SOURCES" || word == "QUICK" || word == "USES" || word == "PRIVATE")
                section = word;
            else if (section == "USES")
                library.uses.insert(word);
            else if (section == "PRIVATE")
                library.inside.insert(word);
    }
    return libraries;
}

std::map<std::string, Library> librariesOfModule(const std::string& module) {
    return librariesOf(contentOf(projectFolder / "src" / module / "CMakeLists.txt"));
}

/// The module of a library of ours, "card" of "swarfbook_card" and of "swarfbook_card_part";
/// nullopt for one from elsewhere.
std::optional<std::string> moduleOf(const std::string& library) {
    const std::string ours = "swarfbook_";
    if (!library.starts_with(ours))
        return std::nullopt;
    return library.substr(ours.size(), library.find('_', ours.size()) - ours.size());
}

/// The modules of these libraries, `module` left out.
std::set<std::string> modulesOf(const std::set<std::string>& libraries, const std::string& module) {
    std::set<std::string> modules;
    for (const std::string& library : libraries)
        if (const auto of = moduleOf(library); of && *of != module)
            modules.insert(*of);
    return modules;
}

/// All that a library links, directly or through another.
void addReached(const std::string& library, std::set<std::string>& reached) {
    if (!reached.insert(library).second)
        return;
    if (const auto module = moduleOf(library))
        for (const std::string& used : librariesOfModule(*module).at(library).all())
            addReached(used, reached);
}

bool looksAtPictures(const std::string& library) {
    return library.starts_with("opencv") || library.find("DNNL") != std::string::npos ||
           library.find("GOMP") != std::string::npos;
}

} // namespace

TEST_CASE("an arrow up the order, between the faces or to an unknown module is noticed") {
    CHECK_FALSE(complaintAbout("debris", "card"));
    CHECK_FALSE(complaintAbout("cli", "base"));
    CHECK_FALSE(complaintAbout("report", "report"));
    CHECK(complaintAbout("card", "debris"));
    CHECK(complaintAbout("assess", "record"));
    CHECK(complaintAbout("web", "cli"));
    CHECK(complaintAbout("cli", "web", "command_add.cpp"));
    CHECK_FALSE(complaintAbout("cli", "web", startsThePages));
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
            const auto complaint =
                complaintAbout(inside.begin()->string(), used, inside.filename().string());
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
    const auto libraries =
        librariesOf("add_module(x\n  SOURCES swarfbook_no.cpp\n  USES swarfbook_card fmt::fmt\n"
                    "  swarfbook_base\n  PRIVATE opencv_core)\nadd_module(x_part SOURCES a.cpp)\n"
                    "target(swarfbook_cli)");
    REQUIRE(libraries.size() == 2);
    const Library& x = libraries.at("swarfbook_x");
    CHECK(x.uses == std::set<std::string>{"swarfbook_card", "fmt::fmt", "swarfbook_base"});
    CHECK(x.inside == std::set<std::string>{"opencv_core"});
    CHECK(modulesOf(x.uses, "x") == std::set<std::string>{"base", "card"});
    CHECK(modulesOf({"swarfbook_card_part"}, "x") == std::set<std::string>{"card"});
    CHECK(looksAtPictures("opencv_core"));
    CHECK(looksAtPictures("${DNNL_LIBRARY}"));
}

TEST_CASE("each module links the modules that it includes, and none besides") {
    for (const auto& entry : fs::directory_iterator(projectFolder / "src")) {
        if (!entry.is_directory())
            continue;
        const std::string module = entry.path().filename().string();
        INFO(module);
        std::set<std::string> uses, inside;
        for (const auto& [name, library] : librariesOfModule(module)) {
            uses.merge(modulesOf(library.uses, module));
            inside.merge(modulesOf(library.inside, module));
        }
        std::set<std::string> ofSources = modulesIncludedBy(module, ".cpp");
        const std::set<std::string> ofHeaders = modulesIncludedBy(module, ".h");
        for (const std::string& used : ofHeaders)
            ofSources.erase(used);
        CHECK(uses == ofHeaders);
        for (const std::string& used : uses) // a second library of a module may be linked inside
            inside.erase(used);
        CHECK(inside == ofSources);
    }
}

TEST_CASE("what judges counts and typed words links no library that looks at pictures") {
    for (const std::string& module : withoutPictures) {
        std::set<std::string> reached;
        addReached("swarfbook_" + module, reached);
        INFO(module);
        CHECK(reached.contains("swarfbook_base"));
        CHECK(std::none_of(reached.begin(), reached.end(), looksAtPictures));
    }
    std::set<std::string> reached;
    addReached("swarfbook_debris", reached);
    CHECK(std::any_of(reached.begin(), reached.end(), looksAtPictures)); // the reader reads
}
