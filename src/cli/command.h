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
    /// Takes the words typed after the verb, as they stand. As a rule they are parsed as options()
    /// and positionals() say and handed to parse().
    virtual void take(const std::vector<std::string>& words);
    /// The help on what these words ask for; "" = that of the whole verb.
    [[nodiscard]] virtual std::string helpOn(const std::vector<std::string>& /*words*/) const {
        return {};
    }
    /// Lines of the help that stand before the options; "" for none.
    [[nodiscard]] virtual std::string preface() const { return {}; }
    /// Takes the parsed words; throws UsageError for what makes no sense.
    virtual void parse(const boost::program_options::variables_map& words) = 0;
    /// Does it. Results go to stdout, talk to stderr. @return an ExitCode.
    virtual int run() = 0;
    /// What run() kept or wrote, a sentence for the user whose standard output took no result; ""
    /// for nothing.
    [[nodiscard]] const std::string& kept() const { return kept_; }

  protected:
    void nowKept(const std::string& sentence) { kept_ += (kept_.empty() ? "" : " ") + sentence; }

  private:
    std::string kept_;
};

/// The words parsed as the verb's options say. Throws boost's own errors for what they do not know,
/// UsageError for text that must not be taken in.
boost::program_options::variables_map parsedOptions(const Command& command,
                                                    const std::vector<std::string>& words);

/// An entry of the list of verbs in commands.cpp.
struct CommandEntry {
    std::string name;
    std::string help;    ///< one line, imperative
    std::string usage;   ///< "swarfbook measure PHOTO... [options]"
    std::string example; ///< one line that works as it stands from the project's folder
    std::function<Command*()> make;
};

/// Every verb there is, in the order of a visit.
const std::vector<CommandEntry>& commands();

/// Those that need neither photos nor pages: the quick program has no others (full_program.h).
const std::vector<CommandEntry>& quickCommands();

/// The whole program on the words typed after its name: does the verb, and says every failure in
/// one sentence on stderr; nothing is thrown. @return an ExitCode.
/// Checked: tests/cli/frame_test.cpp.
int runWords(const std::vector<std::string>& words);
/// The same with those verbs alone.
int runWords(const std::vector<std::string>& words, const std::vector<CommandEntry>& verbs);

} // namespace swarfbook::cli
