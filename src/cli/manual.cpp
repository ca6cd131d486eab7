// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/manual.h"

#include "base/shell_text.h"
#include "cli/command.h"
#include "cli/command_line.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <memory>
#include <sstream>
#include <string_view>
#include <utility>
#include <vector>

namespace swarfbook::cli {
namespace {

struct OptionText {
    std::string name;
    std::string help;
    bool takesValue = false;
};

std::vector<OptionText> optionsIn(const boost::program_options::options_description& described) {
    std::vector<OptionText> options;
    for (const auto& option : described.options())
        options.push_back(
            {option->long_name(), option->description(), option->semantic()->max_tokens() > 0});
    return options;
}

/// The verb's own options, as its help shows them.
std::vector<OptionText> ownOptionsOf(const CommandEntry& entry) {
    const std::unique_ptr<Command> command(entry.make());
    return optionsIn(command->options());
}

/// The same with the options that every verb takes.
std::vector<OptionText> optionsOf(const CommandEntry& entry) {
    std::vector<OptionText> options = ownOptionsOf(entry);
    for (OptionText& common : optionsIn(commonOptions()))
        options.push_back(std::move(common));
    return options;
}

/// The words that can follow the verb by its usage: "add", "list", ... of "swarfbook vehicle add
/// LABEL", each of "visits|photos"; words in small letters alone.
std::vector<std::string> actionsOf(const CommandEntry& entry) {
    const std::string start = "swarfbook " + entry.name + " ";
    std::vector<std::string> actions;
    for (std::size_t at = entry.usage.find(start); at != std::string::npos;
         at = entry.usage.find(start, at)) {
        at += start.size();
        std::istringstream words(entry.usage.substr(at, entry.usage.find_first_of(" \n", at) - at));
        for (std::string word; std::getline(words, word, '|');)
            if (!word.empty() &&
                std::all_of(word.begin(), word.end(), [](char c) { return c >= 'a' && c <= 'z'; }))
                actions.push_back(word);
    }
    return actions;
}

std::string joined(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, " "));
}

/// Text with every `from` replaced.
std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

/// Text escaped for roff: its special signs, and no line that begins like a request.
std::string roff(const std::string& text) {
    std::string out = replaced(replaced(text, "\\", "\\e"), "-", "\\-");
    out = replaced(replaced(out, "\n.", "\n\\&."), "\n'", "\n\\&'");
    return out.starts_with('.') || out.starts_with('\'') ? "\\&" + out : out;
}

/// Text within single quotation marks of fish, which knows \' and \\ within its quotation marks.
std::string quotedForFish(const std::string& text) {
    return "'" + replaced(replaced(text, "\\", "\\\\"), "'", "\\'") + "'";
}

std::string optionLines(const std::vector<OptionText>& options) {
    std::string out;
    for (const OptionText& option : options)
        out += fmt::format(".TP\n{}\\fB\\-\\-{}\\fR{}\n{}.\n",
                           option.name == "help" ? "\\fB\\-h\\fR, " : "", roff(option.name),
                           option.takesValue ? " \\fIVALUE\\fR" : "", roff(option.help));
    return out;
}

std::string verbSection(const CommandEntry& entry) {
    return fmt::format(".SS {}\n{}.\n.PP\n.nf\n{}\n.fi\n", roff(entry.name), roff(entry.help),
                       roff(entry.usage)) +
           optionLines(ownOptionsOf(entry)) +
           fmt::format(".PP\nExample:\n.PP\n.nf\n{}\n.fi\n", roff(entry.example));
}

} // namespace

std::string manualPage() {
    std::string out = fmt::format(
        ".TH SWARFBOOK 1 \"\" \"swarfbook {}\" \"User Commands\"\n"
        ".SH NAME\nswarfbook \\- measures debris of automatic transmissions in photos\n"
        ".SH SYNOPSIS\n.B swarfbook\n.I VERB\n[\\fIoptions\\fR]\n.SH DESCRIPTION\n"
        "swarfbook measures the debris of an automatic transmission in photos that show it beside\n"
        "a printed card, keeps a book per vehicle, compares visits and writes the report.\n"
        ".SH VERBS\n",
        SWARFBOOK_VERSION);
    for (const CommandEntry& entry : commands())
        out += verbSection(entry);
    return out + ".SH OPTIONS OF EVERY VERB\n" + optionLines(optionsIn(commonOptions())) +
           ".SH FILES\nThe book is in \\fI~/.local/share/swarfbook\\fR.\n"
           ".SH ENVIRONMENT\n.TP\n.B SWARFBOOK_BOOK\nFolder of the book.\n"
           ".TP\n.B SWARFBOOK_DATA\nFolder with the card's geometry and the models, where they are "
           "not where\nthey were installed.\n"
           ".TP\n.B NO_COLOR\nWhere it is set and not empty, nothing is printed in colour.\n"
           ".SH EXIT STATUS\n"
           "0: done. 1: the photo or the evidence was refused. 2: wrong use.\n"
           "3: the machine failed.\n";
}

std::string bashCompletion() {
    std::string verbs, options, actions;
    for (const CommandEntry& entry : commands()) {
        verbs += (verbs.empty() ? "" : " ") + entry.name;
        std::string all;
        for (const OptionText& option : optionsOf(entry))
            all += (all.empty() ? "--" : " --") + option.name;
        options += fmt::format("        {}) words=\"{}\" ;;\n", entry.name, all);
        if (const auto words = actionsOf(entry); !words.empty())
            actions += fmt::format("        {}) words=\"{}\" ;;\n", entry.name, joined(words));
    }
    return fmt::format(
        "# Completion of swarfbook for bash; file names where no word fits.\n"
        "_swarfbook() {{\n"
        "    local word=${{COMP_WORDS[COMP_CWORD]}} words=\n"
        "    COMPREPLY=()\n"
        "    if [ \"$COMP_CWORD\" = 1 ]; then\n"
        "        words=\"{0} help --help --quiet --version\"\n"
        "    elif [ \"$COMP_CWORD\" = 2 ] && [ \"${{COMP_WORDS[1]}}\" = help ]; then\n"
        "        words=\"{0}\"\n"
        "    elif [[ $word == -* ]]; then\n"
        "        case ${{COMP_WORDS[1]}} in\n"
        "{1}"
        "        esac\n"
        "    elif [ \"$COMP_CWORD\" = 2 ]; then\n"
        "        case ${{COMP_WORDS[1]}} in\n"
        "{2}"
        "        esac\n"
        "    fi\n"
        "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
        "}}\n"
        "complete -o default -F _swarfbook swarfbook\n",
        verbs, options, actions);
}

std::string zshCompletion() {
    // a colon separates a word from its description
    const auto proposal = [](const std::string& word, const std::string& help) {
        return quotedForShell(replaced(word, ":", "\\:") + ":" + replaced(help, "\n", " "));
    };
    std::string verbs, options, actions;
    for (const CommandEntry& entry : commands()) {
        verbs += "    " + proposal(entry.name, entry.help) + "\n";
        options += fmt::format("    {}) proposals=(\n", entry.name);
        for (const OptionText& option : optionsOf(entry))
            options += "      " + proposal("--" + option.name, option.help) + "\n";
        options += "    ) ;;\n";
        if (const auto words = actionsOf(entry); !words.empty())
            actions += fmt::format("    {}) proposals=({}) ;;\n", entry.name, joined(words));
    }
    return fmt::format("#compdef swarfbook\n"
                       "local -a proposals\n"
                       "if (( CURRENT == 2 )) || [[ $CURRENT == 3 && $words[2] == help ]]; then\n"
                       "  proposals=(\n{0}  )\n"
                       "  _describe verb proposals\n"
                       "elif [[ $words[CURRENT] == -* ]]; then\n"
                       "  case $words[2] in\n{1}  esac\n"
                       "  _describe -o option proposals\n"
                       "else\n"
                       "  if (( CURRENT == 3 )); then\n"
                       "    case $words[2] in\n{2}    esac\n"
                       "  fi\n"
                       "  (( $#proposals )) && _describe action proposals || _files\n"
                       "fi\n",
                       verbs, options, actions);
}

std::string fishCompletion() {
    std::string out;
    for (const CommandEntry& entry : commands()) {
        out += fmt::format("complete -c swarfbook -n '__fish_use_subcommand; or "
                           "__fish_seen_subcommand_from help' -a {} -d {}\n",
                           entry.name, quotedForFish(entry.help));
        for (const std::string& action : actionsOf(entry))
            out += fmt::format("complete -c swarfbook -n '__fish_seen_subcommand_from {}' -a {}\n",
                               entry.name, action);
        for (const OptionText& option : optionsOf(entry))
            out += fmt::format(
                "complete -c swarfbook -n '__fish_seen_subcommand_from {}'{} -l {}{} -d {}\n",
                entry.name, option.name == "help" ? " -s h" : "", option.name,
                option.takesValue ? " -r" : "", quotedForFish(option.help));
    }
    return out;
}

} // namespace swarfbook::cli
