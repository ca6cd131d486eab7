// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/text.h"
#include "bench/codes.h"
#include "cli/observe_kinds.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace swarfbook::cli {
namespace {

Observation readSinceClean(const ObserveWords& words) {
    words.atMost(1);
    const std::string given = words.value(0, "the distance, such as 45000km, or unknown");
    if (given == "unknown" || given == "not-known")
        return SinceClean{};
    return SinceClean{parseDistance(given, words.sure())};
}

Observation readHistory(const ObserveWords& words) {
    words.atMost(0);
    History history;
    history.firstOpening = words.flag("first-opening");
    history.wipedWithoutRecord = words.flag("wiped");
    words.quantity("rebuilt", parseDistance, history.sinceRebuild);
    history.coolerFlushed = words.yesNo("cooler-flushed");
    history.magnetsChanged = words.yesNo("magnets-changed");
    history.note = words.text("note").value_or("");
    return history;
}

Observation readCodesTyped(const ObserveWords& words) {
    Codes codes;
    codes.when = words.flag("after") ? CodesWhen::after : CodesWhen::before;
    codes.onlyHot = words.yesNo("only-hot");
    codes.makersText = words.text("text").value_or("");
    static_cast<void>(words.value(0, "the codes, or none"));
    if (wordAsTyped(words.valuesFrom(0, "")) == "none")
        return codes;
    std::string all = words.valuesFrom(0, "");
    std::replace(all.begin(), all.end(), ',', ' ');
    std::istringstream each(all);
    for (std::string given; each >> given;)
        codes.codes.push_back(parseCode(given).text);
    return codes;
}

Observation readComplaint(const ObserveWords& words) {
    Complaint complaint;
    complaint.symptom =
        fromWord<Symptom>(words.valuesFrom(0, "what it does: " + wordList<Symptom>()));
    if (const auto gear = words.text("gear"))
        complaint.gear = gearOf(*gear);
    if (const auto shift = words.text("shift"))
        complaint.shift = shiftOf(*shift);
    if (!complaint.gear.empty() && !complaint.shift.empty())
        throw UsageError("A complaint is of a gear or of a shift, not of both: type two.");
    readDriving(words, complaint);
    return complaint;
}

Observation readShift(const ObserveWords& words) {
    Complaint complaint;
    complaint.shift = shiftOf(words.value(0, "which shift, such as 2-3"));
    complaint.symptom =
        fromWord<Symptom>(words.valuesFrom(1, "what it does: " + wordList<Symptom>()));
    readDriving(words, complaint);
    return complaint;
}

Observation readGear(const ObserveWords& words) {
    Complaint complaint;
    complaint.gear = gearOf(words.value(0, "which gear, such as 3 or R"));
    complaint.symptom =
        fromWord<Symptom>(words.valuesFrom(1, "what it does: " + wordList<Symptom>()));
    readDriving(words, complaint);
    return complaint;
}

Observation readNoise(const ObserveWords& words) {
    words.atMost(1);
    Noise noise;
    noise.noise = fromWord<NoiseKind>(words.value(0, "which noise: " + wordList<NoiseKind>()));
    for (const std::string& gear : words.list("heard"))
        noise.heardIn.push_back(gearOf(gear));
    for (const std::string& gear : words.list("quiet"))
        noise.quietIn.push_back(gearOf(gear));
    return noise;
}

/// A colour in the technician's words that says more than a colour is asked about.
void questionColour(const FluidSeen& fluid) {
    const std::string colour = lowered(fluid.colour);
    const auto says = [&](std::initializer_list<const char*> words) {
        return std::any_of(words.begin(), words.end(), [&](const char* word) {
            return colour.find(word) != std::string::npos;
        });
    };
    const auto ask = [&](const char* what, const char* option) {
        throw UsageError(fmt::format("\"{}\" sounds like {}. Say it so that it counts: add {}.",
                                     fluid.colour, what, option));
    };
    if (!fluid.milky && says({"milk", "strawberry", "pink", "cream", "foam", "rust", "coolant"}))
        ask("coolant or water in the fluid", "--milky yes or --milky no");
    if (fluid.smell == Smell::notSaid && says({"burn", "charred", "scorched"}))
        ask("burnt fluid", "--smell burnt or --smell none");
    if (fluid.glitter == Glitter::notLooked &&
        says({"glitter", "sparkl", "metallic", "pearl", "shimmer", "flake"}))
        ask("metal in the fluid", "--glitter silver, gold or none");
    if (fluid.type == FluidType::notSaid && says({"wrong", "not the right"}))
        ask("the wrong fluid", "--type wrong or --type right");
}

Observation readFluid(const ObserveWords& words) {
    words.atMost(0);
    FluidSeen fluid;
    fluid.colour = words.text("colour").value_or("");
    words.word("type", fluid.type);
    words.word("smell", fluid.smell);
    fluid.milky = words.yesNo("milky");
    words.word("glitter", fluid.glitter);
    words.quantity("drained", parseVolume, fluid.drained);
    questionColour(fluid);
    return fluid;
}

Observation readLevel(const ObserveWords& words) {
    words.atMost(2);
    LevelSeen level;
    level.found = fromWord<LevelFound>(words.value(0, "the level: " + wordList<LevelFound>()));
    if (const auto by = words.maybeValue(1))
        level.by = parseVolume(*by, words.sure());
    if (level.by && level.found == LevelFound::right)
        throw UsageError("A level that is right is not off by anything: say low or high.");
    if (level.by && level.by->value.value() > 12.0 && words.sure() == Sure::ask)
        throw UsageError(
            fmt::format("\"{}\" off is more than most units hold. Check the digits; if "
                        "it is really so, type the same again with --sure.",
                        level.by->typed));
    words.quantity("at", parseTemperature, level.at);
    level.leak = words.text("leak").value_or("");
    return level;
}

Observation readOutside(const ObserveWords& words) {
    words.atMost(2);
    OutsideCheck check;
    check.item = fromWord<OutsideItem>(words.value(0, "what: " + wordList<OutsideItem>()));
    check.result = fromWord<Checked>(words.value(1, "how it was found: good or fault"));
    words.quantity("volts", parseVolts, check.volts);
    check.detail = words.text("detail").value_or("");
    return check;
}

std::set<std::string> drivingAnd(std::set<std::string> more) {
    more.insert(drivingOptions().begin(), drivingOptions().end());
    return more;
}

const std::vector<ObserveKind> fromTheDrive{
    {"since-clean",
     "distance since pan, magnet and filter were last cleaned on record",
     "DISTANCE|unknown",
     "since-clean 45000km",
     {},
     readSinceClean},
    {"history",
     "what is known of the unit's past",
     "[options]",
     "history --rebuilt 25000km --cooler-flushed no",
     {"first-opening", "wiped", "rebuilt", "cooler-flushed", "magnets-changed", "note"},
     readHistory},
    {"codes",
     "trouble codes read; none says that none was stored",
     "CODE...|none",
     "codes P0733 P0735",
     {"after", "only-hot", "text"},
     readCodesTyped},
    {"complaint", "how it drives, in a gear, over a shift or in general", "SYMPTOM [options]",
     "complaint --gear 3 slip --load firm", drivingAnd({"gear", "shift"}), readComplaint},
    {"gear", "the same, the gear first", "GEAR SYMPTOM [options]", "gear R no-drive",
     drivingOptions(), readGear},
    {"shift", "the same, the shift first", "SHIFT SYMPTOM [options]", "shift 2-3 flare",
     drivingOptions(), readShift},
    {"noise",
     "a noise, and in which gears",
     "NOISE [options]",
     "noise whine --heard 1,R --quiet 4",
     {"heard", "quiet"},
     readNoise},
    {"level",
     "the fluid level as it came in",
     "right|low|high [AMOUNT] [options]",
     "level low 1.5l --leak \"cooler line\"",
     {"at", "leak"},
     readLevel},
    {"fluid",
     "the fluid that came out",
     "[options]",
     "fluid --colour \"dark red\" --smell burnt --milky no --drained 4.2l",
     {"colour", "smell", "milky", "glitter", "type", "drained"},
     readFluid},
    {"outside",
     "supply, connector, harness, sensor, engine ... looked at",
     "PART good|fault [options]",
     "outside connector fault --detail \"oil in it\" --volts 9.4V",
     {"volts", "detail"},
     readOutside},
};

} // namespace

std::vector<ObserveKind> driveKinds() {
    return fromTheDrive;
}

} // namespace swarfbook::cli
