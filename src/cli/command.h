// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <boost/program_options.hpp>

#include <functional>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// Exit codes of the program.
enum ExitCode { done = 0, refused = 1, wrongUse = 2, failed = 3 };

/// One verb. parse() reads the words and touches no file; run() does it.
class Command {
  public:
    virtual ~Command() = default;
    /// Options and positional words, for --help and parsing.
    [[nodiscard]] virtual boost::program_options::options_description options() const = 0;
    [[nodiscard]] virtual boost::program_options::positional_options_description
    positionals() const {
        return {};
    }
    /// Takes the words typed after the verb, unchanged. By default parses them by options() and
    /// positionals() and hands them to parse().
    virtual void take(const std::vector<std::string>& words);
    /// The help that these words ask for; "" = the help of the whole verb.
    [[nodiscard]] virtual std::string helpOn(const std::vector<std::string>& /*words*/) const {
        return {};
    }
    /// Lines of the help before the options; "" for none.
    [[nodiscard]] virtual std::string preface() const { return {}; }
    /// Takes the parsed words; throws UsageError for words that make no sense.
    virtual void parse(const boost::program_options::variables_map& words) = 0;
    /// Does it. Results go to stdout, talk to stderr. @return an ExitCode.
    virtual int run() = 0;
    /// What run() kept or wrote, as a sentence for a user whose standard output failed; "" for
    /// nothing.
    [[nodiscard]] const std::string& kept() const { return kept_; }

  protected:
    void nowKept(const std::string& sentence) { kept_ += (kept_.empty() ? "" : " ") + sentence; }

  private:
    std::string kept_;
};

/// Parses the words by the verb's options. Throws boost's own errors for unknown options, and
/// UsageError for text that must not be stored.
boost::program_options::variables_map parsedOptions(const Command& command,
                                                    const std::vector<std::string>& words);

/// An entry of the list of verbs in commands.cpp.
struct CommandEntry {
    std::string name;
    std::string help;    ///< one line, imperative
    std::string usage;   ///< "swarfbook measure PHOTO... [options]"
    std::string example; ///< one line that works unchanged in the project's folder
    std::function<Command*()> make;
};

/// Every verb there is, in the order of a visit.
const std::vector<CommandEntry>& commands();

/// Verbs that need neither photos nor pages: the quick program has only these (full_program.h).
const std::vector<CommandEntry>& quickCommands();

/// Runs the whole program on the words typed after its name: does the verb, and reports every
/// failure in one sentence on stderr. Throws nothing. @return an ExitCode.
/// Checked: tests/cli/frame_test.cpp.
int runWords(const std::vector<std::string>& words);
/// The same with those verbs alone.
int runWords(const std::vector<std::string>& words, const std::vector<CommandEntry>& verbs);

} // namespace swarfbook::cli
