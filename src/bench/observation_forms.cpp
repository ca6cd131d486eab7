// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/text.h"
#include "bench/typed_observation.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

constexpr auto rest = FormWord::Takes::rest, allBeforeLast = FormWord::Takes::allBeforeLast;

const std::vector<ObservationForm> beforeThePan{
    {"since-clean",
     "since-clean",
     "distance since pan, magnet and filter were last cleaned on record",
     {{"distance_km", "DISTANCE|unknown", rest}},
     "since-clean 45000km"},
    {"history",
     "history",
     "what is known of the unit's past",
     {},
     "history --rebuilt 25000km --cooler-flushed no"},
    {"codes",
     "codes",
     "the trouble codes that were read; none says that none was stored",
     {{"codes", "CODE...|none", rest}},
     "codes P0733 P0735"},
    {"complaint",
     "complaint",
     "how it drives, in a gear, over a shift or in general",
     {{"symptom", "SYMPTOM", rest}},
     "complaint --gear 3 slip --load firm"},
    {"gear",
     "complaint",
     "how it drives in a gear",
     {{"gear", "GEAR"}, {"symptom", "SYMPTOM", rest}},
     "gear R no-drive"},
    {"shift",
     "complaint",
     "how it drives over a shift",
     {{"shift", "SHIFT"}, {"symptom", "SYMPTOM", rest}},
     "shift 2-3 flare"},
    {"noise",
     "noise",
     "a noise, and in which gears",
     {{"noise", "NOISE", rest}},
     "noise whine --heard 1,R --quiet 4"},
    {"level",
     "level",
     "the fluid level as it came in",
     {{"found"}, {"by_l", "AMOUNT", rest, false}},
     "level low 1.5l --leak \"cooler line\""},
    {"fluid",
     "fluid",
     "the fluid that came out",
     {},
     "fluid --colour \"dark red\" --smell burnt --milky no --drained 4.2l"},
    {"outside",
     "outside",
     "a part outside the unit that was looked at: connector, sensor, engine ...",
     {{"item", "PART", allBeforeLast}, {"result"}},
     "outside connector fault --detail \"oil in it\" --volts 9.4V"},
};

const std::vector<ObservationForm> byEyeAndHand{
    {"debris",
     "debris",
     "debris as the eye sees it, by place; clean says that nothing lay there",
     {{"place", "PLACE"}, {"what", "WHAT", rest}},
     "debris pan yellow-metal --size S1 --amount few"},
    {"finger",
     "finger",
     "debris rubbed between gloved fingers or through paper",
     {{"feel", "", rest}},
     "finger smears --place magnet"},
    {"magnet-test",
     "magnet-test",
     "dry debris, a magnet under the paper",
     {{"result", "", rest}},
     "magnet-test moves --share few"},
    {"squeeze",
     "squeeze",
     "a flake squeezed in the pliers",
     {{"result", "", rest}},
     "squeeze bends --place pan --pieces \"the largest\""},
    {"filter-neck",
     "filter-neck",
     "the filter's neck and its seal, which the pump draws through",
     {{"neck", "", rest, false}},
     "filter-neck good --seal hard"},
    {"not-inspected",
     "not-inspected",
     "something that was left out; the report says that it was not looked at",
     {{"what", "WHAT", rest}},
     "not-inspected filter"},
    {"overrule",
     "overrule",
     "your own decision, where it is not the suggestion; both stay in the book",
     {{"outcome", "OUTCOME", rest}},
     "overrule \"clean and refit\" --note \"customer sells the car\""},
};

const std::vector<ObservationForm> onTheBench{
    {"pressure",
     "pressure",
     "the oil pressure, in one gear or in all",
     {{"found", "", rest}},
     "pressure low --gear 3 --reading 45psi --makers 60-90psi"},
    {"solenoid",
     "solenoid",
     "readings of one solenoid; several add up",
     {{"name", "NAME"}},
     "solenoid A --ohm 12.6 --at 80C --leak-off seals --leak-on leaks --siblings worse"},
    {"bore",
     "bore",
     "vacuum and wet-air readings of one valve-body bore; several add up",
     {{"name", "NAME"}},
     "bore \"converter regulator\" --vacuum 12inHg --blocked 26inHg"},
    {"valve-body",
     "valve-body",
     "the valve body's casting",
     {},
     "valve-body --cracked no --warped yes"},
    {"air-check",
     "air-check",
     "air put to the port of a clutch or brake, valve body off",
     {{"element", "ELEMENT", allBeforeLast}, {"result"}},
     "air-check Q leaks --gears 3,R"},
    {"cooler",
     "cooler",
     "the cooler's flow, and whether a flush is on record",
     {{"amount_l", "AMOUNT", rest, false}},
     "cooler 0.4l --in 30s --flushed no"},
    {"converter",
     "converter",
     "the converter as far as it shows from outside",
     {},
     "converter --drain fault --hub good"},
    {"end-play",
     "end-play",
     "the end play, judged or read",
     {{"result", "normal|too-much|READING", rest}},
     "end-play 0.45mm --makers 0.2-0.6mm"},
    {"adaptation",
     "adaptation",
     "the adaptive values",
     {{"result", "normal|at-its-limit", rest}},
     "adaptation at-its-limit"},
};

const std::vector<ObservationForm> afterTheRepair{
    {"did",
     "after-repair",
     "the work that was done, in one line: parts, fluid, level, codes, drive",
     {{"did", "WORK", rest}},
     "did \"filter and neck seal renewed, codes cleared\""},
    {"after-repair",
     "after-repair",
     "what was done before it is driven: selector, adaptation, leaks",
     {},
     "after-repair --selector-cycled yes --adaptation done --leaks no"},
    {"refill",
     "refill",
     "how much fluid was filled in",
     {{"filled_l", "AMOUNT", rest}},
     "refill 4.5l --at 25C"},
    {"level-check",
     "level-check",
     "the level after refilling, and the temperature of the fluid",
     {{"found", "", rest}},
     "level-check right --at 40C --window 35-45C --total 9l"},
    {"road-test",
     "road-test",
     "how the repaired unit drives, in a gear, over a shift or as a whole",
     {{"gear", "GEAR|SHIFT", FormWord::Takes::one, false}, {"symptom", "SYMPTOM", rest}},
     "road-test 2-3 good --load firm --warmth hot"},
    {"outcome",
     "outcome",
     "what became of the repair, at the next contact",
     {{"held", "fixed|came-back|not-known", rest}},
     "outcome fixed --after-distance 1200km"},
    {"take-back",
     "taken-back",
     "an earlier entry was wrong and nothing stands in its place; both stay in the book",
     {},
     "take-back --corrects 1 --note \"typed at the wrong car\""},
};

/// "right|low|high".
std::string shownWords(const FieldEntry& field) {
    std::string words;
    for (const std::string& word : field.words)
        words += (words.empty() ? "" : "|") + wordAsTyped(word);
    return words;
}

} // namespace

const FieldEntry& ObservationForm::field(std::string_view stored) const {
    const auto& all = fieldsOfKind(kind);
    return *std::find_if(all.begin(), all.end(), [&](const auto& f) { return f.name == stored; });
}

std::vector<const FieldEntry*> ObservationForm::options() const {
    std::vector<const FieldEntry*> list;
    for (const FieldEntry& field : fieldsOfKind(kind)) {
        const bool word = std::any_of(words.begin(), words.end(),
                                      [&](const FormWord& w) { return w.field == field.name; });
        const bool there = std::any_of(list.begin(), list.end(), [&](const FieldEntry* other) {
            return other->about.option == field.about.option;
        });
        // a gear and a shift exclude each other, except where either is typed as an option
        const bool ofTheDrive = (field.name == "gear" || field.name == "shift") &&
                                (name == "gear" || name == "shift" || name == "road-test");
        if (!field.about.option.empty() && !word && !there && !ofTheDrive)
            list.push_back(&field);
    }
    return list;
}

std::string ObservationForm::usage() const {
    std::string text;
    for (const FormWord& word : words) {
        const std::string shown = word.shown.empty() ? shownWords(field(word.field)) : word.shown;
        text += (text.empty() ? "" : " ") + (word.required ? shown : "[" + shown + "]");
    }
    if (!options().empty())
        text += text.empty() ? "[options]" : " [options]";
    return text;
}

const std::vector<ObservationForm>& observationForms() {
    static const std::vector<ObservationForm> all = [] {
        std::vector<ObservationForm> forms;
        for (const auto& some : {beforeThePan, byEyeAndHand, onTheBench, afterTheRepair})
            forms.insert(forms.end(), some.begin(), some.end());
        return forms;
    }();
    return all;
}

} // namespace swarfbook
