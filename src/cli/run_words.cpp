// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/near_words.h"
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/plain_output.h"
#include "cli/standard_output.h"
#include "cli/terminal.h"
#include "cli/typed_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <iostream>
#include <limits>
#include <memory>
#include <new>
#include <sys/stat.h>
#include <system_error>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

void printAllVerbs(Stream to, const std::vector<CommandEntry>& verbs) {
    std::ostream& out = to == Stream::output ? std::cout : std::cerr;
    out << "Measure the debris of an automatic transmission in photos beside a printed\n"
           "card, keep a book per vehicle and write the report.\n\n"
        << heading("usage:", to) << " swarfbook VERB ...\n\n";
    for (const CommandEntry& entry : verbs)
        out << fmt::format(
            "  {}{} {}\n", heading(entry.name, to),
            std::string(std::max<std::size_t>(12, entry.name.size()) - entry.name.size(), ' '),
            entry.help);
    out << "\nA verb's options and an example: swarfbook help VERB, or swarfbook VERB -h.\n"
           "--quiet leaves remarks and progress out; --version prints the version.\n\n"
           "Exit codes: 0 done, 1 the photo or the evidence was refused, 2 wrong use, 3 the\n"
           "machine failed.\n\n"
           "This program measures and records; it does not replace the maker's procedure,\n"
           "local rules or the judgement of a qualified technician.\n";
}

void printHelp(const CommandEntry& entry, const Command& command) {
    const std::size_t usageWord = std::string_view("usage:").size();
    std::cout << entry.help << "\n\n"
              << heading("usage:") << ("usage: " + entry.usage).substr(usageWord) << "\n\n";
    const std::string preface = command.preface();
    std::cout << preface << (preface.empty() ? "" : "\n")
              << optionList(command.options(), "options") << "\n"
              << optionList(commonOptions(), "options of every verb") << "\n"
              << heading("example:") << "\n  " << entry.example << "\n";
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

/// Where words go that no option takes.
constexpr const char* wordTooMany = "a word too many";

/// A po::error that names the word, so that who typed it sees which one is meant.
void refuseWordTooMany(const po::parsed_options& read) {
    for (const po::option& option : read.options)
        if (option.string_key == wordTooMany && !option.value.empty())
            throw po::error(fmt::format("\"{}\" belongs to no option", option.value.front()));
}

/// Runs the verb; `kept` becomes what it kept, however it ends.
int runVerb(const CommandEntry& entry, const CommandLine& typed, std::string& kept) {
    const std::unique_ptr<Command> command(entry.make());
    if (typed.help) {
        const std::string help = command->helpOn(typed.words);
        if (help.empty())
            printHelp(entry, *command);
        else
            std::cout << help;
        return done;
    }
    command->take(typed.words);
    try {
        const int code = command->run();
        kept = command->kept();
        return code;
    } catch (...) {
        kept = command->kept();
        throw;
    }
}

[[noreturn]] void throwNoVerb(const std::string& typed, const std::vector<CommandEntry>& verbs) {
    std::vector<std::string> known;
    for (const CommandEntry& verb : verbs)
        known.push_back(verb.name);
    std::string near = didYouMean(typed, known);
    near += near.empty() ? "" : " ";
    throw UsageError(
        fmt::format("There is no verb \"{}\". {}swarfbook --help lists all verbs.", typed, near));
}

/// What the library of options found wrong, as a sentence.
std::string inOurWords(const po::error& wrong) {
    if (const auto* unknown = dynamic_cast<const po::unknown_option*>(&wrong))
        return fmt::format("There is no option {}.", unknown->get_option_name());
    std::string sentence = std::string(wrong.what()) + ".";
    sentence[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence[0])));
    return sentence;
}

int runOneVerb(const CommandLine& typed, const std::vector<CommandEntry>& verbs,
               std::string& kept) {
    if (typed.verb.empty()) {
        printAllVerbs(typed.help ? Stream::output : Stream::error, verbs);
        return typed.help ? done : wrongUse;
    }
    if (typed.verb == "--version") {
        std::cout << "swarfbook " << SWARFBOOK_VERSION << "\n";
        return done;
    }
    const auto entry = std::find_if(verbs.begin(), verbs.end(),
                                    [&](const CommandEntry& e) { return e.name == typed.verb; });
    if (entry == verbs.end())
        throwNoVerb(typed.verb, verbs);
    try {
        return runVerb(*entry, typed, kept);
    } catch (const po::error& wrong) {
        throw UsageError(fmt::format("{} swarfbook {} --help shows how it is used.",
                                     inOurWords(wrong), entry->name));
    }
}

/// Whether a library reports, in its own words, that memory or threads were refused.
bool isOutOfMemory(const std::exception& e) {
    if (dynamic_cast<const std::bad_alloc*>(&e) != nullptr)
        return true;
    if (const auto* system = dynamic_cast<const std::system_error*>(&e))
        return system->code() == std::errc::not_enough_memory ||
               system->code() == std::errc::resource_unavailable_try_again;
    const std::string_view text = e.what();
    return text.find("out of memory") != std::string_view::npos ||
           text.find("out_of_memory") != std::string_view::npos ||
           text.find("Insufficient memory") != std::string_view::npos; // OpenCV's words
}

/// One sentence for an unforeseen error.
std::string otherFailure(const std::exception& e) {
    if (isOutOfMemory(e))
        return "there is not enough memory for this. Close other programs and try again.";
    return fmt::format("a part of the program failed ({}). Give the command again; if it fails "
                       "again, pass this sentence on to those who look after the program.",
                       e.what());
}

/// Runs it; reports every failure in one sentence.
int runAndSayFailure(const CommandLine& typed, const std::vector<CommandEntry>& verbs,
                     std::string& kept) {
    const std::string start = alarming("swarfbook:") + " ";
    try {
        return runOneVerb(typed, verbs, kept);
    } catch (const UsageError& wrong) {
        std::cerr << start << wrong.what() << "\n";
        return wrongUse;
    } catch (const EvidenceRefused& no) {
        std::cerr << start << no.what() << "\n";
        return refused;
    } catch (const ToolError& failure) {
        std::cerr << start << failure.what() << "\n";
        return failed;
    } catch (const std::exception& e) {
        std::cerr << start << otherFailure(e) << "\n";
        return failed;
    }
}

/// The same; also says what was kept before it failed.
int runAndSay(const CommandLine& typed, const std::vector<CommandEntry>& verbs, std::string& kept) {
    const int code = runAndSayFailure(typed, verbs, kept);
    if ((code == wrongUse || code == failed) && !kept.empty())
        std::cerr << "swarfbook: kept anyway: " << kept << "\n";
    return code;
}

ShownOn shownOn(Stream stream) {
    return {terminalWidth(stream).value_or(0), wantsColour(stream)};
}

/// The exit code once all results are written, or could not be.
int codeAfterWriting(int code, int systemError, const std::string& kept) {
    if (systemError == 0)
        return code;
    // A reader that has seen enough closes the pipe; that is not an error.
    if (systemError == EPIPE && kept.empty())
        return failed;
    std::cerr << fmt::format("swarfbook: the result could not be written to the standard output "
                             "({}).{}\n",
                             std::strerror(systemError),
                             kept.empty() ? "" : " It was kept anyway: " + kept);
    return failed;
}

} // namespace

void Command::take(const std::vector<std::string>& words) {
    parse(parsedOptions(*this, words));
}

po::variables_map parsedOptions(const Command& command, const std::vector<std::string>& words) {
    po::positional_options_description places = command.positionals();
    if (places.max_total_count() != std::numeric_limits<unsigned>::max())
        places.add(wordTooMany, -1);
    const po::options_description options = command.options();
    const po::parsed_options read =
        po::command_line_parser(words)
            .options(options)
            .positional(places)
            .style(po::command_line_style::unix_style & ~po::command_line_style::allow_guessing)
            .extra_style_parser(negativeNumber)
            .run();
    refuseWordTooMany(read);
    po::variables_map parsed;
    po::store(read, parsed);
    po::notify(parsed);
    checkTypedWords(parsed);
    return parsed;
}

int runWords(const std::vector<std::string>& words, const std::vector<CommandEntry>& verbs) {
    openMissingStreams();
    std::signal(SIGPIPE, SIG_IGN);
    ::umask(0077); // files are private to the owner, temporary files of libraries as well
    const CommandLine typed = readCommandLine(words);
    sayNothing(typed.quiet);
    keepLinesWhole(false);
    const PlainOutput remarks(std::cerr, shownOn(Stream::error));
    StandardOutput out;
    std::string kept;
    int code = failed;
    {
        const PlainOutput results(std::cout, shownOn(Stream::output));
        code = runAndSay(typed, verbs, kept);
    }
    return codeAfterWriting(code, out.finish(), kept);
}

} // namespace swarfbook::cli
