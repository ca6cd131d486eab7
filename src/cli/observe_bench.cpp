// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/observe_kinds.h"

#include <fmt/format.h>

namespace swarfbook::cli {
namespace {

/// A coil without continuity, as people and meters write it.
bool saysOpen(const std::string& text) {
    const std::string word = wordAsTyped(text);
    return word == "open" || word == "ol" || word == "o.l." || word == "infinite" ||
           word == "inf" || word == "open-circuit" || text == "\u221e";
}

bool saysShort(const std::string& text) {
    const std::string word = wordAsTyped(text);
    return word == "short" || word == "shorted" || word == "short-circuit";
}

void readCoil(const ObserveWords& words, SolenoidReadings& s) {
    if (const auto ohm = words.text("ohm")) {
        if (saysOpen(*ohm))
            s.openCircuit = true;
        else if (saysShort(*ohm))
            s.shorted = true;
        else
            s.resistance = parseOhms(*ohm, words.sure());
    }
    if (words.flag("at-pins") && words.flag("at-connector"))
        throw UsageError("A coil is read at one place at a time: type one entry for the connector "
                         "and one for the pins.");
    if (words.flag("at-pins") || words.flag("at-connector"))
        s.coilAt = words.flag("at-pins") ? MeasuredAt::pins : MeasuredAt::connector;
    words.quantity("at", parseTemperature, s.at);
    if (const auto hot = words.text("hot")) {
        if (saysOpen(*hot) || *hot == "holds")
            s.hotOpen = *hot != "holds";
        else
            s.hotResistance = parseOhms(*hot, words.sure());
    }
    words.quantity("hot-at", parseTemperature, s.hotAt);
    if (const auto band = words.text("band")) {
        const auto [low, high] = endsOf(*band);
        s.bandLow = parseOhms(low, words.sure());
        s.bandHigh = parseOhms(high, words.sure());
    }
}

/// What cannot be meant so.
void questionSolenoid(const SolenoidReadings& s, Sure sure) {
    if (s.bandLow && s.bandHigh && !(s.bandLow->value < s.bandHigh->value))
        throw UsageError("The band's first value must be the smaller one.");
    if (s.pullIn && s.dropOut && !(s.pullIn->value > s.dropOut->value))
        throw UsageError(fmt::format("Pulling in at {:g} V and letting go at {:g} V cannot be: the "
                                     "two are exchanged, or a digit is wrong.",
                                     s.pullIn->value.value(), s.dropOut->value.value()));
    if (s.at && s.hotAt && s.hotAt->value < s.at->value)
        throw UsageError("The hot reading was colder than the cold one: check --at and --hot-at.");
    if (s.bandHigh && s.resistance && s.resistance->value > s.bandHigh->value * 5.0 &&
        sure == Sure::ask)
        throw UsageError(fmt::format("{:g} ohm is more than five times the band: check the digits "
                                     "and the meter's range. An open coil is typed as --ohm open. "
                                     "If it is really so, type the same again with --sure.",
                                     s.resistance->value.value()));
}

Observation readSolenoid(const ObserveWords& words) {
    words.atMost(1);
    SolenoidReadings s;
    s.name = words.value(0, "which solenoid by its name, or rest for all others");
    readCoil(words, s);
    words.word("type", s.type);
    words.word("leak-off", s.leakOff);
    words.word("leak-on", s.leakOn);
    words.quantity("pull-in", parseVolts, s.pullIn);
    words.quantity("drop-out", parseVolts, s.dropOut);
    words.quantity("current", parseAmperes, s.current);
    words.quantity("frequency", parseFrequency, s.frequency);
    words.word("command", s.command);
    words.word("hot-command", s.hotCommand);
    words.word("swap", s.swap);
    s.flushed = words.yesNo("flushed");
    s.demagnetised = words.yesNo("demagnetised");
    words.word("siblings", s.siblings);
    s.note = words.text("note").value_or("");
    questionSolenoid(s, words.sure());
    return s;
}

void questionBore(const BoreReadings& b) {
    if (b.vacuum && b.blocked && b.vacuum->value > b.blocked->value)
        throw UsageError(
            fmt::format("{} is more than the stand reaches with its hose blocked ({}): "
                        "check both.",
                        b.vacuum->typed, b.blocked->typed));
    if (b.open && b.blocked && !(b.open->value < b.blocked->value))
        throw UsageError("The stand reads no more blocked than open: the two are exchanged, or the "
                         "stand draws no vacuum.");
}

Observation readBore(const ObserveWords& words) {
    words.atMost(1);
    BoreReadings b;
    b.name = words.value(0, "which bore by its name, or stand for the stand's own readings");
    words.quantity("vacuum", parseVacuum, b.vacuum);
    words.quantity("open", parseVacuum, b.open);
    words.quantity("blocked", parseVacuum, b.blocked);
    words.quantity("jet", parseVacuum, b.jet);
    words.quantity("jet-usual", parseVacuum, b.jetUsual);
    words.quantity("new-valve", parseVacuum, b.newValve);
    words.quantity("good-unit", parseVacuum, b.goodUnit);
    words.quantity("repaired", parseVacuum, b.repaired);
    b.note = words.text("note").value_or("");
    if (const auto film = words.text("film")) {
        if (*film != "wet" && *film != "dry")
            throw UsageError("--film takes wet or dry.");
        b.wet = *film == "wet";
    }
    words.word("wet-air", b.wetAir);
    b.scored = words.yesNo("scored");
    b.reamedBefore = words.yesNo("reamed");
    b.concerns = words.text("concerns").value_or("");
    questionBore(b);
    return b;
}

Observation readPressure(const ObserveWords& words) {
    words.atMost(1);
    PressureSeen p;
    p.found = fromWord<PressureFound>(words.value(0, "how: " + wordList<PressureFound>()));
    if (const auto gear = words.text("gear"))
        p.gear = gearOf(*gear);
    words.quantity("reading", parsePressure, p.reading);
    if (const auto makers = words.text("makers")) {
        const auto [low, high] = endsOf(*makers);
        p.makersLow = parsePressure(low, words.sure());
        p.makersHigh = parsePressure(high, words.sure());
    }
    return p;
}

Observation readAirCheck(const ObserveWords& words) {
    words.atMost(2);
    AirCheck check;
    check.element = words.value(0, "which clutch or brake by its name");
    check.result = fromWord<AirCheckResult>(words.value(1, "how: holds or leaks"));
    for (const std::string& gear : words.list("gears"))
        check.gears.push_back(gearOf(gear));
    return check;
}

Observation readValveBody(const ObserveWords& words) {
    words.atMost(0);
    return ValveBodySeen{words.yesNo("cracked"),     words.yesNo("warped"),
                         words.yesNo("scored"),      words.yesNo("reamed"),
                         words.yesNo("electronics"), words.yesNo("repair-costs-more")};
}

Observation readCooler(const ObserveWords& words) {
    words.atMost(1);
    CoolerFlow cooler;
    if (const auto amount = words.maybeValue(0))
        cooler.amount = parseVolume(*amount, words.sure());
    words.quantity("in", parseDuration, cooler.in);
    if (cooler.amount.has_value() != cooler.in.has_value())
        throw UsageError("A flow is an amount in a time: cooler 0.9l --in 30s.");
    if (cooler.in && !(cooler.in->value.value() > 0.0))
        throw UsageError("The time must be above zero.");
    if (const auto result = words.text("result"))
        cooler.result = fromWord<Checked>(*result);
    cooler.flushed = words.yesNo("flushed");
    return cooler;
}

Observation readConverter(const ObserveWords& words) {
    words.atMost(0);
    ConverterSeen converter;
    if (const auto drain = words.text("drain"))
        converter.drain = fromWord<Checked>(*drain);
    if (const auto hub = words.text("hub"))
        converter.hub = fromWord<Checked>(*hub);
    converter.blued = words.yesNo("blued");
    converter.coolantInside = words.yesNo("coolant");
    return converter;
}

Observation readEndPlay(const ObserveWords& words) {
    words.atMost(1);
    return EndPlaySeen{fromWord<EndPlay>(words.value(0, "how: normal or excess"))};
}

Observation readAdaptation(const ObserveWords& words) {
    words.atMost(1);
    return AdaptationSeen{fromWord<Adaptation>(words.value(0, "how: normal or at-limit"))};
}

const std::vector<ObserveKind> onTheBench{
    {"pressure",
     "pressure in a range, or in all",
     "normal|low|high|drops-with-time [options]",
     "pressure low --gear 3 --reading 45psi --makers 60-90psi",
     {"gear", "reading", "makers"},
     readPressure},
    {"solenoid",
     "readings of one solenoid; several add up",
     "NAME [options]",
     "solenoid A --ohm 12.6 --at 80C --leak-off seals --leak-on leaks --siblings worse",
     {"type",    "ohm",         "at",      "at-pins", "at-connector", "band",     "hot",
      "hot-at",  "leak-off",    "leak-on", "pull-in", "drop-out",     "current",  "frequency",
      "command", "hot-command", "swap",    "flushed", "demagnetised", "siblings", "note"},
     readSolenoid},
    {"bore",
     "vacuum and wet-air readings of one valve-body bore; several add up",
     "NAME [options]",
     "bore \"TCC regulator\" --vacuum 12inHg --blocked 26inHg",
     {"vacuum", "open", "blocked", "jet", "jet-usual", "new-valve", "good-unit", "film", "wet-air",
      "scored", "reamed", "concerns", "repaired", "note"},
     readBore},
    {"valve-body",
     "the valve body's casting",
     "[options]",
     "valve-body --cracked no --warped yes",
     {"cracked", "warped", "scored", "reamed", "electronics", "repair-costs-more"},
     readValveBody},
    {"air-check",
     "air put to the port of a clutch or brake, valve body off",
     "ELEMENT holds|leaks [options]",
     "air-check Q leaks --gears 3,R",
     {"gears"},
     readAirCheck},
    {"cooler",
     "the cooler's flow, and whether a flush is on record",
     "[AMOUNT --in TIME] [options]",
     "cooler 0.4l --in 30s --flushed no",
     {"in", "result", "flushed"},
     readCooler},
    {"converter",
     "the converter as far as it shows from outside",
     "[options]",
     "converter --drain fault --hub good",
     {"drain", "hub", "blued", "coolant"},
     readConverter},
    {"end-play", "the end play", "normal|excess", "end-play excess", {}, readEndPlay},
    {"adaptation",
     "the adaptive values",
     "normal|at-limit",
     "adaptation at-limit",
     {},
     readAdaptation},
};

} // namespace

std::vector<ObserveKind> benchKinds() {
    return onTheBench;
}

} // namespace swarfbook::cli
