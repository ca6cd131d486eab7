// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_line.h"

#include "cli/terminal.h"

#include <algorithm>
#include <sstream>

namespace swarfbook::cli {

CommandLine readCommandLine(const std::vector<std::string>& words) {
    CommandLine line;
    bool asTyped = false; // after "--"
    std::vector<std::string> rest;
    for (const std::string& word : words) {
        asTyped = asTyped || word == "--";
        if (!asTyped && (word == "-h" || word == "--help"))
            line.help = true;
        else if (!asTyped && word == "--quiet" && !(!rest.empty() && rest.front() == "observe"))
            line.quiet = true;
        else
            rest.push_back(word);
    }
    if (!rest.empty() && rest.front() == "help") {
        line.help = true;
        rest.erase(rest.begin());
    }
    if (!rest.empty()) {
        line.verb = rest.front();
        line.words.assign(rest.begin() + 1, rest.end());
    }
    return line;
}

boost::program_options::options_description commonOptions() {
    boost::program_options::options_description all("options of every verb");
    all.add_options()("help,h", "show this")(
        "quiet",
        "leave progress and remarks out; results, cautions and refusals are always printed "
        "(of observe, type it before the verb: observe noise has a --quiet of its own)");
    return all;
}

std::string optionList(const boost::program_options::options_description& options,
                       std::string_view title) {
    constexpr std::size_t usual = 80, widest = 100;
    const auto width =
        static_cast<unsigned>(std::min(terminalWidth(Stream::output).value_or(usual), widest));
    boost::program_options::options_description list(width, width / 2);
    for (const auto& option : options.options())
        list.add(option);
    std::ostringstream text;
    text << heading(std::string(title) + ":") << "\n" << list;
    return text.str();
}

} // namespace swarfbook::cli
