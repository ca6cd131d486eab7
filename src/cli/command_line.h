// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <boost/program_options/options_description.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook::cli {

/// What was typed after the program's name, with the words that every verb takes already read.
struct CommandLine {
    std::string verb;               ///< "" when none was typed
    std::vector<std::string> words; ///< after the verb
    bool help = false;              ///< -h, --help, or "help VERB"
    bool quiet = false;             ///< --quiet
};

/// Reads them. Leaves words after "--" as they are, and --quiet after observe, which has an option
/// of that name: the gears where a noise is not heard. Refuses nothing.
/// Checked: tests/cli/frame_test.cpp.
CommandLine readCommandLine(const std::vector<std::string>& words);

/// The options that every verb takes, for help, manual page and completion.
boost::program_options::options_description commonOptions();

/// A list of options under a title, in lines that fit the terminal; 80 characters without a
/// terminal.
std::string optionList(const boost::program_options::options_description& options,
                       std::string_view title);

} // namespace swarfbook::cli
