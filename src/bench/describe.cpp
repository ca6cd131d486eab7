// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/codes.h"
#include "bench/copper.h"
#include "bench/describe_after_repair.h"
#include "bench/describe_parts.h"
#include "bench/observation.h"

namespace swarfbook {
namespace {

using namespace describing;

std::string line(const SinceClean& o) {
    return o.distance
               ? fmt::format("{} since the last documented clean", typed(o.distance, "km", 0))
               : "distance since the last documented clean not known";
}
std::string line(const History& o) {
    return Line()
        .addIf(o.firstOpening, "first opening")
        .addIf(o.wipedWithoutRecord, "opened or cleaned lately without a record")
        .add(o.sinceRebuild ? "rebuilt " + typed(o.sinceRebuild, "km", 0) + " ago" : "")
        .add(yesNo(o.coolerFlushed, "cooler flushed", "no cooler flush on record"))
        .add(yesNo(o.magnetsChanged, "magnets changed", "magnets unchanged"))
        .add(o.note)
        .text();
}
std::string line(const Codes& o) {
    std::string text = o.codes.empty() ? "no codes stored" : "";
    for (const std::string& code : o.codes) {
        const TroubleCode read = parseCode(code);
        text += fmt::format("{}{} ({}: {})", text.empty() ? "" : ", ", code,
                            codeFamilyName(read.family), read.meaning);
    }
    return Line()
        .add(text)
        .addIf(o.when == CodesWhen::after, "read after the repair")
        .addIf(o.onlyHot == true, "only when hot")
        .add(o.makersText.empty() ? "" : "maker's text: " + o.makersText)
        .text();
}
std::string line(const Complaint& o) {
    return driveLine(o);
}
std::string line(const Noise& o) {
    return Line()
        .add(o.noise == NoiseKind::none ? "no noise" : std::string(wordOf(o.noise)))
        .add(o.heardIn.empty() ? "" : "heard in " + joined(o.heardIn))
        .add(o.quietIn.empty() ? "" : "quiet in " + joined(o.quietIn))
        .text();
}
std::string line(const FluidSeen& o) {
    return Line()
        .add(o.colour)
        .add(o.smell == Smell::none ? "no smell" : word("smells", o.smell, Smell::notSaid))
        .add(yesNo(o.milky, "milky", "not milky"))
        .add(o.glitter == Glitter::none ? "nothing glitters"
                                        : word("glitters", o.glitter, Glitter::notLooked))
        .add(labelled("drained", o.drained, "l", 2))
        .add(o.type == FluidType::notSaid ? "" : fmt::format("{} fluid", wordOf(o.type)))
        .text();
}
std::string line(const LevelSeen& o) {
    return Line()
        .add(o.by ? fmt::format("{} by {}", wordOf(o.found), typed(o.by, "l", 2))
                  : std::string(wordOf(o.found)))
        .add(labelled("at", o.at, "C", 0))
        .add(o.leak.empty() ? "" : "leak at the " + o.leak)
        .text();
}
std::string line(const OutsideCheck& o) {
    return Line()
        .add(fmt::format("{}: {}", wordOf(o.item), wordOf(o.result)))
        .add(typed(o.volts, "V", 1))
        .add(o.detail)
        .text();
}
std::string coil(const SolenoidReadings& o) {
    std::string text = labelled("", o.resistance, "ohm", 1);
    if (text.empty())
        return text;
    text.erase(0, 1);
    text += o.at ? " at " + typed(o.at, "C", 0) : ", temperature not noted";
    if (o.at)
        text += fmt::format(" = {:.1f} ohm at 20 C",
                            resistanceAt20(o.resistance->value, o.at->value).value());
    return text;
}
std::string line(const SolenoidReadings& o) {
    return o.name + ": " +
           Line()
               .add(word("", o.type, SolenoidKind::notSaid))
               .add(coil(o))
               .addIf(o.openCircuit == true, "coil open")
               .addIf(o.shorted == true, "coil shorted")
               .addIf(o.coilAt == MeasuredAt::connector, "read at the case connector")
               .addIf(o.coilAt == MeasuredAt::pins, "read at its own pins")
               .add(labelled("maker's band from", o.bandLow, "ohm", 1))
               .add(labelled("to", o.bandHigh, "ohm", 1))
               .add(labelled("hot", o.hotResistance, "ohm", 1))
               .addIf(o.hotOpen == true, "opens hot")
               .addIf(o.hotOpen == false, "does not open hot")
               .add(labelled("hot at", o.hotAt, "C", 0))
               .add(word("off", o.leakOff, LeakSeen::notTested))
               .add(word("on", o.leakOn, LeakSeen::notTested))
               .add(labelled("pulls in at", o.pullIn, "V", 1))
               .add(labelled("drops out at", o.dropOut, "V", 1))
               .add(typed(o.current, "A", 2))
               .add(typed(o.frequency, "Hz", 0))
               .add(word("command", o.command, Movement::notTested))
               .add(word("hot command", o.hotCommand, Movement::notTested))
               .add(word("fault at the swap", o.swap, SwapResult::notSwapped))
               .add(yesNo(o.flushed, "flushed", "not flushed"))
               .add(yesNo(o.demagnetised, "demagnetised", "not demagnetised"))
               .add(word("siblings", o.siblings, AgainstSiblings::notCompared))
               .add(o.note)
               .text();
}
std::string line(const BoreReadings& o) {
    return o.name + ": " +
           Line()
               .add(typed(o.vacuum, "kPa", 1))
               .add(labelled("stand open", o.open, "kPa", 1))
               .add(labelled("blocked", o.blocked, "kPa", 1))
               .add(labelled("jet", o.jet, "kPa", 1))
               .add(labelled("jet as usual", o.jetUsual, "kPa", 1))
               .add(labelled("with a new valve", o.newValve, "kPa", 1))
               .add(labelled("in a good unit", o.goodUnit, "kPa", 1))
               .add(yesNo(o.wet, "wet", "dry"))
               .add(word("wet air", o.wetAir, WetAir::notTested))
               .addIf(o.scored == true, "scored")
               .addIf(o.reamedBefore == true, "reamed before")
               .add(o.concerns.empty() ? "" : "concerns " + o.concerns)
               .add(labelled("after the repair", o.repaired, "kPa", 1))
               .add(o.note)
               .text();
}
std::string line(const PressureSeen& o) {
    return Line()
        .add(fmt::format("{} {}", o.gear.empty() ? "all ranges" : o.gear, wordOf(o.found)))
        .add(typed(o.reading, "kPa", 0))
        .add(labelled("maker's from", o.makersLow, "kPa", 0))
        .add(labelled("to", o.makersHigh, "kPa", 0))
        .text();
}
std::string line(const AirCheck& o) {
    return Line()
        .add(fmt::format("{} {}", o.element, wordOf(o.result)))
        .add(o.gears.empty() ? "" : "serves " + joined(o.gears))
        .text();
}
/// Which debris a hand test was made of.
template <class Test> std::string ofDebris(const Test& o) {
    return Line()
        .add(o.place ? fmt::format("debris of the {}", wordOf(*o.place)) : "")
        .add(o.pieces)
        .text();
}
std::string line(const FingerTest& o) {
    return Line().add(std::string(wordOf(o.feel))).add(ofDebris(o)).text();
}
std::string line(const MagnetTest& o) {
    return Line()
        .add(std::string(wordOf(o.result)))
        .add(word("share", o.share, Amount::notSaid))
        .add(ofDebris(o))
        .text();
}
std::string line(const SqueezeTest& o) {
    return Line().add(std::string(wordOf(o.result))).add(ofDebris(o)).text();
}
std::string line(const DebrisSeen& o) {
    return Line()
        .add(fmt::format("{}: {}", wordOf(o.place), wordOf(o.what)))
        .add(o.size ? std::string(wordOf(*o.size)) : "")
        .add(o.coat ? std::string(wordOf(*o.coat)) : "")
        .add(word("", o.amount, Amount::notSaid))
        .addIf(o.magnetic == Ferrous::yes, "magnetic")
        .addIf(o.magnetic == Ferrous::no, "not magnetic")
        .addIf(o.machinedFace, "machined face")
        .addIf(o.paperTexture, "paper texture")
        .addIf(o.burnt, "burnt edge")
        .addIf(o.assemblyLeftOver, "left over from assembly")
        .addIf(o.seenBefore, "seen before")
        .text();
}
std::string line(const CoolerFlow& o) {
    return Line()
        .add(o.amount && o.in ? typed(o.amount, "l", 2) + " in " + typed(o.in, "s", 0)
                              : typed(o.amount, "l", 2))
        .add(o.result ? std::string(wordOf(*o.result)) : "")
        .add(yesNo(o.flushed, "flushed", "not flushed"))
        .text();
}
std::string line(const ConverterSeen& o) {
    return Line()
        .add(o.drain ? fmt::format("drain {}", wordOf(*o.drain)) : "")
        .add(o.hub ? fmt::format("hub {}", wordOf(*o.hub)) : "")
        .add(yesNo(o.blued, "blued by heat", "not blued"))
        .add(yesNo(o.coolantInside, "coolant inside", "no coolant inside"))
        .text();
}
std::string line(const EndPlaySeen& o) {
    return std::string(wordOf(o.result));
}
std::string line(const ValveBodySeen& o) {
    return Line()
        .add(yesNo(o.cracked, "cracked", "not cracked"))
        .add(yesNo(o.warped, "warped", "not warped"))
        .add(yesNo(o.scored, "scored", "not scored"))
        .add(yesNo(o.reamedBefore, "reamed before", "not reamed before"))
        .add(yesNo(o.electronicsInside, "electronics inside", "no electronics inside"))
        .add(yesNo(o.repairCostsMore, "repair costs more than another body",
                   "repair costs less than another body"))
        .text();
}
std::string line(const AdaptationSeen& o) {
    return std::string(wordOf(o.result));
}
std::string line(const FilterNeckSeen& o) {
    return Line()
        .add(o.neck ? fmt::format("neck {}", wordOf(*o.neck)) : "")
        .add(word("seal", o.seal, SealFound::notLooked))
        .add(o.note)
        .text();
}
std::string line(const NotInspected& o) {
    return o.what;
}
std::string line(const Overruled& o) {
    return Line().add(o.outcome).add(o.note).text();
}

} // namespace

std::string describe(const Observation& observation) {
    return fmt::format("{}: {}", observationKind(observation),
                       std::visit([](const auto& o) { return line(o); }, observation));
}

} // namespace swarfbook
