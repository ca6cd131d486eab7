// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/manual.h"

#include "cli/command.h"

#include <fmt/format.h>

#include <memory>
#include <string_view>
#include <vector>

namespace swarfbook::cli {
namespace {

struct OptionText {
    std::string name;
    std::string help;
    bool takesValue = false;
};

std::vector<OptionText> optionsOf(const CommandEntry& entry) {
    const std::unique_ptr<Command> command(entry.make());
    const auto described = command->options();
    std::vector<OptionText> options;
    for (const auto& option : described.options())
        options.push_back(
            {option->long_name(), option->description(), option->semantic()->max_tokens() > 0});
    if (described.find_nothrow("help", false) == nullptr)
        options.push_back({"help", "show this", false}); // every verb takes it
    return options;
}

/// Text with every `from` replaced.
std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

/// Text as roff prints it: its signs, and no line that begins like a request.
std::string roff(const std::string& text) {
    std::string out = replaced(replaced(text, "\\", "\\e"), "-", "\\-");
    out = replaced(replaced(out, "\n.", "\n\\&."), "\n'", "\n\\&'");
    return out.starts_with('.') || out.starts_with('\'') ? "\\&" + out : out;
}

/// Text within single quotation marks of a POSIX shell.
std::string quoted(const std::string& text) {
    return "'" + replaced(text, "'", "'\\''") + "'";
}

/// The same for fish, which knows \' and \\ within its quotation marks.
std::string quotedForFish(const std::string& text) {
    return "'" + replaced(replaced(text, "\\", "\\\\"), "'", "\\'") + "'";
}

std::string verbSection(const CommandEntry& entry) {
    std::string out = fmt::format(".SS {}\n{}.\n.PP\n.nf\n{}\n.fi\n", roff(entry.name),
                                  roff(entry.help), roff(entry.usage));
    for (const OptionText& option : optionsOf(entry))
        out += fmt::format(".TP\n\\fB\\-\\-{}\\fR{}\n{}.\n", roff(option.name),
                           option.takesValue ? " \\fIVALUE\\fR" : "", roff(option.help));
    return out + fmt::format(".PP\nExample:\n.PP\n.nf\n{}\n.fi\n", roff(entry.example));
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
    return out +
           ".SH FILES\nThe book lies in \\fI~/.local/share/swarfbook\\fR.\n"
           ".SH ENVIRONMENT\n.TP\n.B SWARFBOOK_BOOK\nFolder of the book.\n"
           ".TP\n.B SWARFBOOK_DATA\nFolder with the card's geometry and the models, when they "
           "are not where\nthey were installed.\n"
           ".SH EXIT STATUS\n"
           "0: done. 1: the photo or the evidence was refused. 2: wrong use.\n"
           "3: the machine failed.\n";
}

std::string bashCompletion() {
    std::string verbs, cases;
    for (const CommandEntry& entry : commands()) {
        verbs += (verbs.empty() ? "" : " ") + entry.name;
        std::string options;
        for (const OptionText& option : optionsOf(entry))
            options += (options.empty() ? "--" : " --") + option.name;
        cases += fmt::format("    {}) words=\"{}\" ;;\n", entry.name, options);
    }
    return "# Completion of swarfbook for bash; file names where no word fits.\n"
           "_swarfbook() {\n"
           "    local word=${COMP_WORDS[COMP_CWORD]} words=\n"
           "    COMPREPLY=()\n"
           "    if [ \"$COMP_CWORD\" = 1 ]; then\n"
           "        words=\"" +
           verbs +
           " --help --version\"\n"
           "    elif [[ $word == -* ]]; then\n"
           "        case ${COMP_WORDS[1]} in\n" +
           cases +
           "        esac\n"
           "    fi\n"
           "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
           "}\n"
           "complete -o default -F _swarfbook swarfbook\n";
}

std::string zshCompletion() {
    // a colon parts a word from what is said of it
    const auto proposal = [](const std::string& word, const std::string& help) {
        return quoted(replaced(word, ":", "\\:") + ":" + replaced(help, "\n", " "));
    };
    std::string verbs, cases;
    for (const CommandEntry& entry : commands()) {
        verbs += "    " + proposal(entry.name, entry.help) + "\n";
        cases += fmt::format("    {}) proposals=(\n", entry.name);
        for (const OptionText& option : optionsOf(entry))
            cases += "      " + proposal("--" + option.name, option.help) + "\n";
        cases += "    ) ;;\n";
    }
    return "#compdef swarfbook\n"
           "local -a proposals\n"
           "if (( CURRENT == 2 )); then\n"
           "  proposals=(\n" +
           verbs +
           "  )\n"
           "  _describe verb proposals\n"
           "elif [[ $words[CURRENT] == -* ]]; then\n"
           "  case $words[2] in\n" +
           cases +
           "  esac\n"
           "  _describe -o option proposals\n"
           "else\n"
           "  _files\n"
           "fi\n";
}

std::string fishCompletion() {
    std::string out;
    for (const CommandEntry& entry : commands()) {
        out += fmt::format("complete -c swarfbook -n __fish_use_subcommand -a {} -d {}\n",
                           entry.name, quotedForFish(entry.help));
        for (const OptionText& option : optionsOf(entry))
            out += fmt::format(
                "complete -c swarfbook -n '__fish_seen_subcommand_from {}' -l {}{} -d {}\n",
                entry.name, option.name, option.takesValue ? " -r" : "",
                quotedForFish(option.help));
    }
    return out;
}

} // namespace swarfbook::cli
