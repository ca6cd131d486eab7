// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/codes.h"
#include "cli/observe_kinds.h"

#include <fmt/format.h>

#include <cctype>

namespace swarfbook::cli {
namespace {

/// "r" is reverse; "3rd" and "third" are not taken.
std::string gearOf(const std::string& text) {
    std::string gear = text;
    if (gear.size() == 1)
        gear[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(gear[0])));
    const bool known = gear == "all" || gear == "forward" || gear == "converter" ||
                       (gear.size() <= 2 && !gear.empty() &&
                        (std::isdigit(static_cast<unsigned char>(gear[0])) != 0 || gear == "R" ||
                         gear == "N" || gear == "P" || gear == "D"));
    if (!known)
        throw UsageError(fmt::format("\"{}\" is no gear. Say 1, 2, ..., R, or all.", text));
    return gear;
}

std::string shiftOf(const std::string& text) {
    const std::size_t dash = text.find('-');
    if (dash == std::string::npos || dash == 0 || dash + 1 == text.size() || text.size() > 5)
        throw UsageError(fmt::format("\"{}\" is no shift. Say it like 2-3.", text));
    return gearOf(text.substr(0, dash)) + "-" + gearOf(text.substr(dash + 1));
}

Observation readSinceClean(const ObserveWords& words) {
    words.atMost(1);
    const std::string given = words.value(0, "the distance, such as 45000km, or unknown");
    if (given == "unknown")
        return SinceClean{};
    return SinceClean{parseDistance(given)};
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
    if (words.values().size() == 1 && words.values()[0] == "none")
        return codes;
    for (const std::string& given : words.values())
        codes.codes.push_back(parseCode(given).text);
    return codes;
}

void readDriving(const ObserveWords& words, Complaint& complaint) {
    words.word("load", complaint.load);
    words.word("warmth", complaint.warmth);
    words.quantity("at", parseTemperature, complaint.temperature);
    if (const auto obtained = words.text("obtained"))
        complaint.obtainedGear = gearOf(*obtained);
    if (const auto tap = words.text("brake-tap")) {
        if (*tap != "stops" && *tap != "goes-on")
            throw UsageError("--brake-tap takes stops or goes-on.");
        complaint.stopsOnBrakeTap = *tap == "stops";
    }
    if (const auto manual = words.text("manual-range")) {
        if (*manual != "good" && *manual != "bad")
            throw UsageError("--manual-range takes good or bad.");
        complaint.manualRangeGood = *manual == "good";
    }
    complaint.note = words.text("note").value_or("");
}

Symptom symptomOf(const std::string& text) {
    return text == "none" ? Symptom::good : fromWord<Symptom>(text);
}

Observation readComplaint(const ObserveWords& words) {
    words.atMost(1);
    Complaint complaint;
    complaint.symptom = symptomOf(words.value(0, "what it does: " + wordList<Symptom>()));
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
    words.atMost(2);
    Complaint complaint;
    complaint.shift = shiftOf(words.value(0, "which shift, such as 2-3"));
    complaint.symptom = symptomOf(words.value(1, "what it does: " + wordList<Symptom>()));
    readDriving(words, complaint);
    return complaint;
}

Observation readGear(const ObserveWords& words) {
    words.atMost(2);
    Complaint complaint;
    complaint.gear = gearOf(words.value(0, "which gear, such as 3 or R"));
    complaint.symptom = symptomOf(words.value(1, "what it does: " + wordList<Symptom>()));
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

Observation readFluid(const ObserveWords& words) {
    words.atMost(0);
    FluidSeen fluid;
    fluid.colour = words.text("colour").value_or("");
    words.word("smell", fluid.smell);
    fluid.milky = words.yesNo("milky");
    words.word("glitter", fluid.glitter);
    words.quantity("drained", parseVolume, fluid.drained);
    return fluid;
}

Observation readLevel(const ObserveWords& words) {
    words.atMost(2);
    LevelSeen level;
    level.found = fromWord<LevelFound>(words.value(0, "the level: " + wordList<LevelFound>()));
    if (const auto by = words.maybeValue(1))
        level.by = parseVolume(*by);
    if (level.by && level.found == LevelFound::right)
        throw UsageError("A level that is right is not off by anything: say low or high.");
    if (level.by && level.by->value.value() > 12.0)
        throw UsageError(fmt::format("\"{}\" off is more than most units hold. Check the digits.",
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

const std::set<std::string> drivingOptions{"load",      "warmth",       "at",  "obtained",
                                           "brake-tap", "manual-range", "note"};

std::set<std::string> drivingAnd(std::set<std::string> more) {
    more.insert(drivingOptions.begin(), drivingOptions.end());
    return more;
}

} // namespace

std::vector<ObserveKind> driveKinds() {
    return {
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
         drivingOptions, readGear},
        {"shift", "the same, the shift first", "SHIFT SYMPTOM [options]", "shift 2-3 flare",
         drivingOptions, readShift},
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
         {"colour", "smell", "milky", "glitter", "drained"},
         readFluid},
        {"outside",
         "supply, connector, harness, sensor, engine ... looked at",
         "PART good|fault [options]",
         "outside connector fault --detail \"oil in it\" --volts 9.4V",
         {"volts", "detail"},
         readOutside},
    };
}

} // namespace swarfbook::cli
