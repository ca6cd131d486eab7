// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/near_words.h"
#include "base/text.h"
#include "bench/typed_observation.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>

namespace swarfbook {
namespace {

/// What a kind is called as well.
const std::map<std::string, std::string>& otherNames() {
    static const std::map<std::string, std::string> all{{"code", "codes"},
                                                        {"dtc", "codes"},
                                                        {"dtcs", "codes"},
                                                        {"fault-code", "codes"},
                                                        {"fault-codes", "codes"},
                                                        {"trouble-code", "codes"},
                                                        {"trouble-codes", "codes"},
                                                        {"symptom", "complaint"},
                                                        {"symptoms", "complaint"},
                                                        {"oil", "fluid"},
                                                        {"atf", "fluid"},
                                                        {"oil-level", "level"},
                                                        {"fluid-level", "level"},
                                                        {"roadtest", "road-test"},
                                                        {"test-drive", "road-test"},
                                                        {"testdrive", "road-test"},
                                                        {"airtest", "air-check"},
                                                        {"air-test", "air-check"},
                                                        {"aircheck", "air-check"},
                                                        {"work", "did"},
                                                        {"done", "did"},
                                                        {"repair", "did"},
                                                        {"repaired", "did"},
                                                        {"result", "outcome"},
                                                        {"endplay", "end-play"},
                                                        {"valvebody", "valve-body"},
                                                        {"not-looked-at", "not-inspected"},
                                                        {"taken-back", "take-back"},
                                                        {"withdraw", "take-back"}};
    return all;
}

/// "P0741": a letter of the vehicle's part, a digit 0 to 3, three hexadecimal digits (SAE J2012).
bool isTroubleCode(const std::string& typed) {
    const std::string code = lowered(typed);
    return code.size() == 5 && std::string_view("pbcu").find(code[0]) != std::string_view::npos &&
           code[1] >= '0' && code[1] <= '3' &&
           code.find_first_not_of("0123456789abcdef", 2) == std::string::npos;
}

} // namespace

const ObservationForm* formNamed(const std::string& typed) {
    std::string name = lowered(typed);
    std::replace(name.begin(), name.end(), '_', '-');
    if (const auto other = otherNames().find(name); other != otherNames().end())
        name = other->second;
    for (const ObservationForm& form : observationForms())
        if (form.name == name || form.name == name + "s" || form.name + "s" == name)
            return &form;
    return nullptr;
}

const ObservationForm& observationForm(const std::string& name) {
    if (const ObservationForm* form = formNamed(name))
        return *form;
    if (isTroubleCode(name))
        throw UsageError(fmt::format("\"{0}\" is a trouble code. The kind of observation stands "
                                     "before it: swarfbook observe codes {0}",
                                     name));
    std::string all;
    std::vector<std::string> known;
    for (const ObservationForm& form : observationForms()) {
        known.push_back(form.name);
        all += (all.empty() ? "" : ", ") + form.name;
    }
    const std::string near = didYouMean(name, known);
    throw UsageError(fmt::format("\"{}\" is not a kind of observation. {} swarfbook observe --help "
                                 "gives an example of each kind.",
                                 name, near.empty() ? "Say one of: " + all + "." : near));
}

std::string optionAsNamed(const std::string& typed) {
    static const std::map<std::string, std::string> also{{"color", "colour"},
                                                         {"demagnetized", "demagnetised"},
                                                         {"gear-obtained", "obtained"},
                                                         {"resistance", "ohm"}};
    const auto found = also.find(typed);
    return found == also.end() ? typed : found->second;
}

const std::vector<ShortOption>& shortOptions() {
    static const std::vector<ShortOption> all{
        {"at-pins", "coil-at", "pins", "the coil was read at its own pins"},
        {"at-connector", "coil-at", "connector", "the coil was read at the case connector"}};
    return all;
}

} // namespace swarfbook
