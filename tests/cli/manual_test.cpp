// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command.h"
#include "cli/manual.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>

#include <memory>
#include <sstream>

using namespace swarfbook::cli;
using namespace swarfbook::test;

namespace {

/// The completions of bash for these words, the last one half typed.
std::string proposed(const std::vector<std::string>& words) {
    const TemporaryFile completion(bashCompletion());
    RunOptions bash;
    bash.program = "bash";
    std::string typed;
    for (const std::string& word : words)
        typed += " '" + word + "'";
    const ProgramResult outcome =
        runProgram({"-c", "source " + completion.path().string() + "; COMP_WORDS=(" + typed +
                              "); COMP_CWORD=" + std::to_string(words.size() - 1) +
                              "; _swarfbook; echo \"${COMPREPLY[*]}\""},
                   bash);
    CHECK(outcome.err.empty());
    return outcome.out;
}

/// The name as roff writes it: a bare hyphen may be broken or printed as another sign.
std::string roffName(const std::string& name) {
    std::string out;
    for (const char c : name)
        out += c == '-' ? std::string("\\-") : std::string(1, c);
    return out;
}

} // namespace

TEST_CASE("the manual page and the completions name every verb and every option") {
    const std::string manual = manualPage(), zsh = zshCompletion(), fish = fishCompletion();
    const auto names = [](const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos; // Contains would print all of it each time
    };
    for (const CommandEntry& entry : commands()) {
        INFO(entry.name);
        CHECK(names(manual, "\n.SS " + roffName(entry.name) + "\n"));
        CHECK(names(zsh, "'" + entry.name + ":"));
        CHECK(names(fish, " -a " + entry.name + " -d "));
        const std::string inBash = proposed({"swarfbook", entry.name, "--"});
        CHECK(names(inBash, "--help --quiet"));
        const std::unique_ptr<Command> command(entry.make());
        const auto options = command->options();
        for (const auto& option : options.options()) {
            INFO(option->long_name());
            CHECK(names(inBash, "--" + option->long_name()));
            CHECK(names(manual, "\\-\\-" + roffName(option->long_name())));
            CHECK(names(fish, " -l " + option->long_name()));
            CHECK(names(zsh, "'--" + option->long_name() + ":"));
        }
    }
}

TEST_CASE("bash proposes verbs, then the options of the verb, and nothing for a file") {
    CHECK(proposed({"swarfbook", "mea"}) == "measure\n");
    CHECK(proposed({"swarfbook", "measure", "--annot"}) == "--annotated\n");
    CHECK(proposed({"swarfbook", "backup", "--annot"}) == "\n");
    CHECK(proposed({"swarfbook", "backup", "--qu"}) == "--quiet\n");
    CHECK(proposed({"swarfbook", "vehicle", "ren"}) == "rename\n");
    CHECK(proposed({"swarfbook", "export", "p"}) == "photos pieces\n");
    CHECK(proposed({"swarfbook", "help", "mea"}) == "measure\n");
    CHECK(proposed({"swarfbook", "measure", "pan"}) == "\n");
}

// man(7): a line that begins with a full stop or an apostrophe is a request.
TEST_CASE("every line of the manual page that begins like a request is one") {
    std::istringstream lines(manualPage());
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        if (line.starts_with('.') || line.starts_with('\''))
            CHECK((line.starts_with(".S") || line.starts_with(".TH ") || line.starts_with(".TP") ||
                   line.starts_with(".PP") || line.starts_with(".nf") || line.starts_with(".fi") ||
                   line.starts_with(".B ") || line.starts_with(".I ")));
    }
}
