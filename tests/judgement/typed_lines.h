// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed_observation.h"
#include "cli/case_files.h"
#include "judgement/evidence.h"

#include <algorithm>
#include <optional>

namespace swarfbook::test {

/// Whether this option of the form stands alone.
inline bool standsAlone(const ObservationForm& form, const std::string& option) {
    for (const FieldEntry* field : form.options())
        if (field->about.option == option)
            return field->flag;
    return std::any_of(shortOptions().begin(), shortOptions().end(),
                       [&](const ShortOption& alone) { return alone.name == option; });
}

/// A line as it is typed after "observe": the observation, and the number of the entry that it
/// corrects.
struct LineRead {
    Observation observation;
    std::optional<std::size_t> corrects;
};
inline LineRead readLine(const std::string& text) {
    const std::vector<std::string> words = wordsOf(text);
    TypedLine line;
    line.form = words.at(0);
    const ObservationForm& form = observationForm(line.form);
    std::optional<std::size_t> corrects;
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (!words[i].starts_with("--")) {
            line.values.push_back(words[i]);
            continue;
        }
        const std::string option = words[i].substr(2);
        if (option == "corrects")
            corrects = std::stoul(words.at(++i));
        else
            line.options[option] = standsAlone(form, option) ? "" : words.at(++i);
    }
    LineRead read{observationTyped(line), corrects};
    // "solenoid A replaced": the parts are read by the program, not by the line
    if (auto* after = std::get_if<AfterRepair>(&read.observation); after && after->parts.empty()) {
        after->parts = {after->did.substr(0, after->did.find(" replaced"))};
        after->did = "replace solenoids";
    }
    return read;
}

/// The lines as a visit's observations; one that corrects another counts in its place.
inline std::vector<Observation> observationsOf(const std::vector<std::string>& lines) {
    std::vector<Observation> all;
    std::vector<std::size_t> places; // of each line in `all`
    for (const std::string& line : lines) {
        const LineRead read = readLine(line);
        if (read.corrects) {
            places.push_back(places.at(*read.corrects - 1));
            all[places.back()] = read.observation;
        } else {
            places.push_back(all.size());
            all.push_back(read.observation);
        }
    }
    return all;
}

/// The valid lines.
inline std::vector<std::string> standingLines(const std::vector<std::string>& lines) {
    std::vector<std::string> all = lines, standing;
    for (const std::string& line : lines)
        if (const auto corrects = readLine(line).corrects)
            all.at(*corrects - 1).clear();
    std::copy_if(all.begin(), all.end(), std::back_inserter(standing),
                 [](const std::string& line) { return !line.empty(); });
    return standing;
}

} // namespace swarfbook::test
