// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <csignal>
#include <iostream>
#include <limits>
#include <memory>
#include <new>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

void printAllVerbs(std::ostream& out, const std::vector<CommandEntry>& verbs) {
    out << "swarfbook: measures the debris of an automatic transmission in photos against a "
           "printed\n"
           "card, keeps a book per vehicle and writes the report.\n\n"
           "usage: swarfbook VERB ...\n\n";
    for (const CommandEntry& entry : verbs)
        out << fmt::format("  {:<10} {}\n", entry.name, entry.help);
    out << "\nswarfbook VERB --help tells a verb's options and gives an example.\n"
           "swarfbook --version tells which program this is.\n\n"
           "Exit codes: 0 done, 1 the photo or the evidence was refused, 2 wrong use, 3 the "
           "machine\n"
           "failed. This program measures and records; it does not replace the maker's procedure,\n"
           "local rules or the judgement of a qualified technician.\n";
}

void printHelp(const CommandEntry& entry, const Command& command) {
    std::cout << entry.help << "\n\nusage: " << entry.usage << "\n\n";
    std::cout << command.options() << "\nexample:\n  " << entry.example << "\n";
}

/// A word such as -5 or -0.5 is a number, never an option: no option's name begins with a digit.
std::vector<po::option> negativeNumber(std::vector<std::string>& words) {
    const std::string& word = words.front();
    if (word.size() < 2 || word[0] != '-' ||
        (word[1] != '.' && !std::isdigit(static_cast<unsigned char>(word[1]))))
        return {};
    po::option number;
    number.value.push_back(word);
    number.original_tokens.push_back(word);
    number.position_key = std::numeric_limits<int>::max();
    words.erase(words.begin());
    return {number};
}

int runVerb(const CommandEntry& entry, const std::vector<std::string>& words) {
    const std::unique_ptr<Command> command(entry.make());
    if (std::find(words.begin(), words.end(), "--help") != words.end()) {
        printHelp(entry, *command);
        return done;
    }
    po::variables_map parsed;
    po::store(
        po::command_line_parser(words)
            .options(command->options())
            .positional(command->positionals())
            .style(po::command_line_style::unix_style & ~po::command_line_style::allow_guessing)
            .extra_style_parser(negativeNumber)
            .run(),
        parsed);
    po::notify(parsed);
    command->parse(parsed);
    return command->run();
}

int runOneVerb(const std::vector<std::string>& words, const std::vector<CommandEntry>& verbs) {
    if (words.empty()) {
        printAllVerbs(std::cerr, verbs);
        return wrongUse;
    }
    if (words[0] == "--help" || words[0] == "help") {
        printAllVerbs(std::cout, verbs);
        return done;
    }
    if (words[0] == "--version") {
        std::cout << "swarfbook " << SWARFBOOK_VERSION << "\n";
        return done;
    }
    const auto entry = std::find_if(verbs.begin(), verbs.end(),
                                    [&](const CommandEntry& e) { return e.name == words[0]; });
    if (entry == verbs.end())
        throw UsageError(fmt::format(
            "There is no verb \"{}\". swarfbook --help lists the verbs there are.", words[0]));
    try {
        return runVerb(*entry, {words.begin() + 1, words.end()});
    } catch (const po::error& wrong) {
        throw UsageError(fmt::format("{}. swarfbook {} --help tells how it is used.", wrong.what(),
                                     entry->name));
    }
}

} // namespace

int runWords(const std::vector<std::string>& words, const std::vector<CommandEntry>& verbs) {
    try {
        std::signal(SIGPIPE, SIG_IGN);
        const int code = runOneVerb(words, verbs);
        std::cout.flush();
        return std::cout ? code : failed;
    } catch (const UsageError& wrong) {
        std::cerr << "swarfbook: " << wrong.what() << "\n";
        return wrongUse;
    } catch (const EvidenceRefused& no) {
        std::cerr << "swarfbook: " << no.what() << "\n";
        return refused;
    } catch (const std::bad_alloc&) {
        std::cerr << "swarfbook: there is not enough memory for this. Close other programs and try "
                     "again.\n";
        return failed;
    } catch (const std::exception& e) {
        std::cerr << "swarfbook: " << e.what() << "\n";
        return failed;
    }
}

} // namespace swarfbook::cli
