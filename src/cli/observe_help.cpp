// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_line.h"
#include "cli/observe_words.h"
#include "cli/visit_meant.h"
#include "entry/work_photo_words.h"

#include <fmt/format.h>

#include <map>
#include <sstream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

/// What an option means for each kind that has it: "cooler, solenoid: yes or no".
struct OptionOfKinds {
    std::string name;
    bool flag = false;
    std::vector<std::pair<std::string, std::string>> helps; ///< kinds, and their help
};

void addHelp(OptionOfKinds& option, const std::string& kind, const std::string& help) {
    for (auto& [kinds, said] : option.helps)
        if (said == help) {
            kinds += ", " + kind;
            return;
        }
    option.helps.emplace_back(kind, help);
}

/// In the order of the kinds.
std::vector<OptionOfKinds> optionsOfKinds() {
    std::vector<OptionOfKinds> all;
    std::map<std::string, std::size_t> places;
    for (const ObservationForm& form : observationForms())
        for (const FieldEntry* field : form.options()) {
            const std::string name(field->about.option);
            const auto [place, isNew] = places.emplace(name, all.size());
            if (isNew)
                all.push_back({name, field->flag, {}});
            addHelp(all[place->second], form.name, field->help());
        }
    return all;
}

void addPhotoOptions(po::options_description& to) {
    const auto files = [] { return po::value<std::vector<std::string>>(); };
    auto add = to.add_options();
    add("photo-before", files(),
        "a photo of the part before the work, which the report shows; may be given several times");
    add("photo-after", files(), "the same after the work");
}

/// Options that any kind takes.
void addCommonOptions(po::options_description& to) {
    auto add = to.add_options();
    add("sure", "keep an unusual value that you were asked about: it is meant");
    add("by", po::value<std::string>(),
        "who observed it (else whoever looked at the unit on this visit)");
    add("corrects", po::value<std::string>(),
        "the number of an earlier entry that this one replaces; the book keeps both");
}

} // namespace

po::options_description observeOptions() {
    po::options_description all("options");
    addVisitOptions(all);
    auto add = all.add_options();
    add("file", po::value<std::string>(),
        "a file with one observation a line, as they are typed here; - reads pasted text");
    add("words", po::value<std::vector<std::string>>(), "the kind, and what belongs to it");
    addCommonOptions(all);
    for (const OptionOfKinds& option : optionsOfKinds()) {
        std::string help;
        for (const auto& [kinds, said] : option.helps)
            help += fmt::format("{}{}: {}", help.empty() ? "" : "; ", kinds, said);
        if (option.flag)
            add(option.name.c_str(), help.c_str());
        else
            add(option.name.c_str(), po::value<std::string>(), help.c_str());
    }
    for (const ShortOption& alone : shortOptions())
        add(std::string(alone.name).c_str(), std::string(alone.help).c_str());
    addPhotoOptions(all);
    for (const char* also : {"color", "demagnetized"})
        add(also, po::value<std::string>(),
            fmt::format("the same as {}", optionAsNamed(also)).c_str());
    add("json", "as JSON");
    add("book", po::value<std::string>(),
        "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
    return all;
}

std::string kindsHelp() {
    std::string text = "kinds, each with an example:\n";
    for (const ObservationForm& form : observationForms())
        text += fmt::format("\n  {} {}\n      {}\n      swarfbook observe --visit 4 {}\n",
                            form.name, form.usage(), form.help, form.example);
    return text +
           "\nSeveral observations of one solenoid or bore add up; of anything else the "
           "latest counts.\nSeveral can be typed at once, with \"and\" between them.\n"
           "Nothing is overwritten: --corrects NUMBER puts a new entry in the "
           "place of an earlier one,\nand both stay. KIND not-inspected says that it was not "
           "looked at. Without a kind, all\nobservations of the visit are shown with their "
           "numbers. swarfbook observe KIND --help\nshows one kind alone.\n";
}

std::string kindHelp(const std::string& kind) {
    const ObservationForm& form = observationForm(kind);
    po::options_description options;
    auto add = options.add_options();
    for (const FieldEntry* field : form.options()) {
        if (field->flag)
            add(std::string(field->about.option).c_str(), field->help().c_str());
        else
            add(std::string(field->about.option).c_str(), po::value<std::string>(),
                field->help().c_str());
    }
    for (const ShortOption& alone : shortOptions())
        if (options.find_nothrow(std::string(alone.option), false) != nullptr)
            add(std::string(alone.name).c_str(), std::string(alone.help).c_str());
    if (takesWorkPhotos(form.kind))
        addPhotoOptions(options);
    addCommonOptions(options);
    std::string words;
    for (const FormWord& word : form.words)
        for (const FieldEntry& field : fieldsOfKind(form.kind))
            if (field.name == word.field && !field.words.empty()) {
                std::string list;
                for (const std::string& one : field.words)
                    list += (list.empty() ? "" : ", ") + wordAsTyped(one);
                words += fmt::format("{}: {}\n", field.about.label, list);
            }
    std::ostringstream text;
    text << form.name << ": " << form.help << "\n\nusage: swarfbook observe [--visit N] "
         << form.name << " " << form.usage() << "\n\n"
         << words << (words.empty() ? "" : "\n") << optionList(options, "options")
         << "\nexample:\n  swarfbook observe "
         << "--visit 4 " << form.example << "\n";
    return text.str();
}

} // namespace swarfbook::cli
