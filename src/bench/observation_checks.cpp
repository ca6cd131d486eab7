// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/text.h"
#include "bench/typed_observation.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

template <class Unit>
void requireRange(const std::optional<Typed<Unit>>& low, const std::optional<Typed<Unit>>& high,
                  const char* sentence) {
    if (low && high && !(low->value < high->value))
        throw UsageError(sentence);
}

void complete(LevelSeen& level, Sure sure) {
    if (level.by && level.found == LevelFound::right)
        throw UsageError("A level that is right is not off by anything: say low or high.");
    // common practice, no source: most units hold 7 to 13 litres
    if (level.by && level.by->value.value() > 12.0 && sure == Sure::ask)
        throw UsageError(
            fmt::format("\"{}\" off is more than most units hold. Check the digits; if "
                        "it is really so, type the same again with --sure.",
                        level.by->typed));
}

void complete(Complaint& complaint, Sure /*sure*/) {
    if (!complaint.gear.empty() && !complaint.shift.empty())
        throw UsageError("A complaint is of a gear or of a shift, not of both: type two.");
}

/// A colour in the technician's words that says more than a colour is asked about.
void complete(FluidSeen& fluid, Sure /*sure*/) {
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

/// A flow that was read says whether it leaks.
void judgeLeak(const std::optional<Typed<MillilitresPerMinute>>& flow, LeakSeen& leak) {
    if (flow && leak == LeakSeen::notTested)
        leak = flow->value.value() > 0.0 ? LeakSeen::leaks : LeakSeen::seals;
}

void complete(SolenoidReadings& s, Sure sure) {
    judgeLeak(s.leakOffFlow, s.leakOff);
    judgeLeak(s.leakOnFlow, s.leakOn);
    requireRange(s.bandLow, s.bandHigh, "The band's first value must be the smaller one.");
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

void complete(BoreReadings& b, Sure /*sure*/) {
    if (b.vacuum && b.blocked && b.vacuum->value > b.blocked->value)
        throw UsageError(
            fmt::format("{} is more than the stand reaches with its hose blocked ({}): "
                        "check both.",
                        b.vacuum->typed, b.blocked->typed));
    requireRange(b.open, b.blocked,
                 "The stand reads no more blocked than open: the two are exchanged, or the "
                 "stand draws no vacuum.");
}

void complete(PressureSeen& p, Sure /*sure*/) {
    requireRange(p.makersLow, p.makersHigh, "The maker's first value must be the smaller one.");
}

/// Common practice, no source: the classes of models/suggestion.json as they are shipped.
TradeSize sizeOfLength(Millimetres length) {
    const double mm = length.value();
    return mm < 0.1    ? TradeSize::s0
           : mm < 0.5  ? TradeSize::s1
           : mm < 1.0  ? TradeSize::s2
           : mm <= 3.0 ? TradeSize::s3
                       : TradeSize::s4;
}

void complete(DebrisSeen& d, Sure /*sure*/) {
    if (d.length)
        d.size = sizeOfLength(d.length->value);
    if (d.what == DebrisKind::clean &&
        (d.size || d.amount != Amount::notSaid || d.machinedFace || d.burnt))
        throw UsageError("A clean place has no size and no amount: say what lay there instead.");
    if (d.coat && d.place != Where::magnet)
        throw UsageError("Only the magnet has a coat: debris magnet paste --coat F2.");
    if (d.part != PlasticPart::notSaid && d.what != DebrisKind::plastic)
        throw UsageError("Only of plastic is asked what it broke off: debris pan plastic --part "
                         "baffle.");
}

void complete(MagnetsFitted& magnets, Sure sure) {
    const std::string& count = magnets.count;
    const bool isNumber = !count.empty() && count.size() <= 2 &&
                          count.find_first_not_of("0123456789") == std::string::npos;
    if (!isNumber)
        throw UsageError(
            fmt::format("\"{}\" is not a number of magnets. Say how many lie in the pan: "
                        "magnets 2 --form ring.",
                        count));
    // common practice, no source: one to four magnets lie in a pan
    if (std::stoi(count) > 6 && sure == Sure::ask)
        throw UsageError(fmt::format("{} magnets are more than a pan usually holds. Check the "
                                     "number; if it is really so, type the same again with --sure.",
                                     count));
    if (std::stoi(count) == 0 && (magnets.form != MagnetForm::notSaid || magnets.size))
        throw UsageError(
            "Where there is no magnet, leave --form and --size out; else say how many there are.");
}

void complete(CoolerFlow& cooler, Sure /*sure*/) {
    if (cooler.amount.has_value() != cooler.in.has_value())
        throw UsageError("A flow is an amount in a time: cooler 0.9l --in 30s.");
    if (cooler.in && !(cooler.in->value.value() > 0.0))
        throw UsageError("The time must be above zero.");
    if (!cooler.amount && !cooler.result && !cooler.flushed)
        throw UsageError("Say how much passes in which time, or --result or --flushed.");
}

void complete(FilterNeckSeen& seen, Sure /*sure*/) {
    if (!seen.neck && seen.seal == SealFound::notLooked)
        throw UsageError("Say how the neck is, good or fault, or the seal with --seal.");
}

void complete(LevelCheck& check, Sure /*sure*/) {
    requireRange(check.windowLow, check.windowHigh,
                 "The window's first temperature must be the lower one.");
}

/// The reading within the maker's limits is normal, above them too much.
void complete(EndPlaySeen& play, Sure sure) {
    requireRange(play.makersLow, play.makersHigh,
                 "The maker's first value must be the smaller one.");
    if (!play.reading)
        return;
    const double mm = play.reading->value.value();
    // common practice, no source: end plays are some tenths of a millimetre
    if (mm > 3.0 && sure == Sure::ask)
        throw UsageError(fmt::format("\"{}\" is {:g} mm; an end play is usually below 3 mm. Check "
                                     "the digits and the unit. If it is really so, type the same "
                                     "again with --sure.",
                                     play.reading->typed, mm));
    if (play.makersLow && play.reading->value < play.makersLow->value && sure == Sure::ask)
        throw UsageError(fmt::format("{} is less than the maker's least ({}): check the shim and "
                                     "the reading. If it is really so, type the same again with "
                                     "--sure.",
                                     play.reading->typed, play.makersLow->typed));
    if (play.makersHigh && play.result == EndPlay::notSaid)
        play.result =
            play.reading->value > play.makersHigh->value ? EndPlay::excess : EndPlay::normal;
}

void complete(Overruled& overruled, Sure /*sure*/) {
    if (overruled.note.empty())
        throw UsageError("Say why with --note: both stay in the book.");
}

void complete(NotInspected& left, Sure /*sure*/) {
    if (left.what.empty())
        throw UsageError("Say what was not inspected.");
}

template <class Other> void complete(Other& /*nothing follows*/, Sure /*sure*/) {}

} // namespace

void completeObservation(Observation& observation, Sure sure) {
    std::visit([&](auto& held) { complete(held, sure); }, observation);
}

} // namespace swarfbook
