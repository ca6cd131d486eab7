// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair.h"
#include "bench/observation_words.h"
#include "bench/typed.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <variant>
#include <vector>

/// What a technician says of a visit, as typed values. Who and when is the record's affair.
/// "Not looked at" is an absent optional or the word for it, never a zero or a "good".
namespace swarfbook {

/// Distance since the last documented clean of pan, magnet and filter; absent = unknown.
struct SinceClean {
    std::optional<Typed<Kilometres>> distance;
};

/// What is known of the unit's past.
struct History {
    bool firstOpening = false;       ///< pan never off before
    bool wipedWithoutRecord = false; ///< opened or cleaned lately, nobody wrote down what was found
    std::optional<Typed<Kilometres>> sinceRebuild;
    std::optional<bool> coolerFlushed; ///< at the rebuild or the last repair
    std::optional<bool> magnetsChanged;
    std::string note;
};

/// Trouble codes read; an empty list says "read, and none stored".
struct Codes {
    std::vector<std::string> codes; ///< upper case, "P0733"
    CodesWhen when = CodesWhen::before;
    std::optional<bool> onlyHot; ///< set only after the unit was warm
    std::string makersText;      ///< typed by the user
};

struct Noise {
    NoiseKind noise = NoiseKind::none;
    std::vector<std::string> heardIn; ///< gears
    std::vector<std::string> quietIn;
};

struct FluidSeen {
    std::optional<Typed<Litres>> drained;
    std::string colour; ///< in the technician's words
    Smell smell = Smell::notSaid;
    std::optional<bool> milky;
    Glitter glitter = Glitter::notLooked;
    FluidType type = FluidType::notSaid; ///< whether it is what the maker asks for
};

struct LevelSeen {
    LevelFound found = LevelFound::right;
    std::optional<Typed<Litres>> by; ///< how much low or high
    std::optional<Typed<Celsius>> at;
    std::string leak; ///< "cooler line"
    LeakAmount leakAmount = LeakAmount::notSaid;
};

/// Supply, connector, harness, sensors, engine ... looked at: good, or a fault found.
struct OutsideCheck {
    OutsideItem item = OutsideItem::supply;
    Checked result = Checked::good;
    std::optional<Typed<Volts>> volts;
    std::string detail;
};

/// Readings of one solenoid. Several observations of one name add up; the later reading counts.
struct SolenoidReadings {
    std::string name; ///< "A"
    SolenoidKind type = SolenoidKind::notSaid;
    std::optional<Typed<Ohms>> resistance;
    std::optional<Typed<Celsius>> at;
    MeasuredAt coilAt = MeasuredAt::notSaid;      ///< where the coil was read
    std::optional<bool> openCircuit;              ///< no continuity through the coil itself
    std::optional<bool> shorted;                  ///< coil to case, or near zero
    std::optional<Typed<Ohms>> bandLow, bandHigh; ///< the maker's, at 20 C
    std::optional<Typed<Ohms>> hotResistance;
    std::optional<Typed<Celsius>> hotAt;
    std::optional<bool> hotOpen; ///< hot repeat: coil opens
    LeakSeen leakOff = LeakSeen::notTested;
    LeakSeen leakOn = LeakSeen::notTested;
    std::optional<Typed<MillilitresPerMinute>> leakOffFlow, leakOnFlow; ///< what passes it
    std::optional<Typed<Volts>> pullIn, dropOut;
    std::optional<Typed<Amperes>> current;
    std::optional<Typed<Hertz>> frequency;
    Movement command = Movement::notTested; ///< command or click test
    Movement hotCommand = Movement::notTested;
    SwapResult swap = SwapResult::notSwapped;
    std::optional<bool> flushed, demagnetised;               ///< before these readings
    AgainstSiblings siblings = AgainstSiblings::notCompared; ///< as a whole, by the technician
    std::string note;
};

/// Vacuum and wet-air readings of one valve-body bore. Several of one name add up.
struct BoreReadings {
    std::string name;
    std::string concerns; ///< gear, shift, solenoid or "converter", as the technician says
    std::optional<Typed<Kilopascals>> vacuum;        ///< lowest of the readings
    std::optional<Typed<Kilopascals>> open, blocked; ///< the stand's own zero and dead-head
    std::optional<Typed<Kilopascals>> jet;           ///< fixed orifice today
    std::optional<Typed<Kilopascals>> jetUsual;      ///< what that orifice always gives here
    std::optional<Typed<Kilopascals>> newValve;      ///< with a new valve in the same bore
    std::optional<Typed<Kilopascals>> goodUnit;      ///< the same bore of a known good unit
    std::optional<bool> wet;                         ///< fluid film in the bore; absent: not said
    WetAir wetAir = WetAir::notTested;
    std::optional<bool> scored; ///< by chips
    std::optional<bool> reamedBefore;
    std::optional<Typed<Kilopascals>> repaired; ///< after the repair; judges nothing
    std::string note;
};

struct PressureSeen {
    std::string gear; ///< "" or "all": in every range
    PressureFound found = PressureFound::normal;
    std::optional<Typed<Kilopascals>> reading, makersLow, makersHigh;
};

/// Low-pressure air into the port of one clutch or brake, valve body off.
struct AirCheck {
    std::string element;
    std::vector<std::string> gears; ///< that the element serves, where known
    AirCheckResult result = AirCheckResult::holds;
};

/// Rubbed between gloved fingers or through paper.
struct FingerTest {
    Feel feel = Feel::notFelt;
    std::optional<Where> place = std::nullopt; ///< where the debris came from
    std::string pieces = {};                   ///< which: "the largest", "the paste"
};

/// Dry debris, a magnet under the paper.
struct MagnetTest {
    MagnetMoves result = MagnetMoves::moves;
    Amount share = Amount::notSaid; ///< how much of the bright pieces does so
    std::optional<Where> place = std::nullopt;
    std::string pieces = {};
};

struct SqueezeTest {
    Squeezed result = Squeezed::bends;
    std::optional<Where> place = std::nullopt;
    std::string pieces = {};
};

/// Debris by eye.
struct DebrisSeen {
    Where place = Where::pan;
    DebrisKind what = DebrisKind::clean;
    std::optional<TradeSize> size;
    std::optional<Coat> coat; ///< magnet only
    Amount amount = Amount::notSaid;
    Ferrous magnetic = Ferrous::notKnown;
    bool machinedFace = false;                  ///< or a needle, a tooth form, a part number
    bool paperTexture = false;                  ///< friction lining in pieces
    bool burnt = false;                         ///< burnt or melted edge
    bool assemblyLeftOver = false;              ///< plug of the filler tube, one casting curl
    bool seenBefore = false;                    ///< the same kind came out at an earlier opening
    std::optional<Typed<Millimetres>> length{}; ///< longest side as told; `size` is its class
    PlasticPart part = PlasticPart::notSaid;    ///< of plastic: what it broke off
};

/// The magnets in the pan: the same coat means less on one small magnet than on two large ones.
struct MagnetsFitted {
    std::string count; ///< "2"
    MagnetForm form = MagnetForm::notSaid;
    std::optional<Typed<Millimetres>> size; ///< diameter, of a block its longer side
    std::optional<bool> added;              ///< one more than before, since the last clean
};

struct CoolerFlow {
    std::optional<Typed<Litres>> amount;
    std::optional<Typed<Seconds>> in;
    std::optional<Checked> result; ///< the technician's own word, by the maker's figure
    std::optional<bool> flushed;   ///< on record
};

/// The torque converter, as far as it can be judged from outside.
struct ConverterSeen {
    std::optional<Checked> drain; ///< fault: dirt or metal in what drains from it
    std::optional<Checked> hub;   ///< hub, bushing, stator
    std::optional<bool> blued;    ///< heat colour
    std::optional<bool> coolantInside;
};

/// As judged, as read, or both; the maker's limits where they are known.
struct EndPlaySeen {
    EndPlay result = EndPlay::notSaid;
    std::optional<Typed<Millimetres>> reading{}, makersLow{}, makersHigh{};
};

/// The valve body's casting, as far as it was looked at.
struct ValveBodySeen {
    std::optional<bool> cracked, warped, scored, reamedBefore, electronicsInside;
    std::optional<bool> repairCostsMore; ///< repair time costs more than another body
};

struct AdaptationSeen {
    Adaptation result = Adaptation::normal;
};

/// Filter neck and its seals: what the pump draws through. A cut seal lets it draw air.
struct FilterNeckSeen {
    std::optional<Checked> neck;
    SealFound seal = SealFound::notLooked;
    std::string note;
};

/// Something deliberately recorded as not looked at.
struct NotInspected {
    std::string what; ///< "filter", "bores", "codes"
};

/// The technician decides otherwise than suggested. Both stay in the book.
struct Overruled {
    std::string outcome; ///< as outcomeName writes it
    std::string note;
};

using AnyObservation =
    std::variant<SinceClean, History, Codes, Complaint, Noise, FluidSeen, LevelSeen, OutsideCheck,
                 SolenoidReadings, BoreReadings, PressureSeen, AirCheck, FingerTest, MagnetTest,
                 SqueezeTest, DebrisSeen, CoolerFlow, ConverterSeen, EndPlaySeen, ValveBodySeen,
                 AdaptationSeen, NotInspected, Overruled, FilterNeckSeen, Refill, LevelCheck,
                 RoadTest, AfterRepair, RepairResult, TakenBack, MagnetsFitted>;

/// One of these. It is copied, moved and taken down in observation.cpp alone: with 31 kinds that costs
/// every file that does it some seconds of compiling.
struct Observation : AnyObservation {
    using AnyObservation::AnyObservation;
    Observation();
    Observation(const Observation& other);
    Observation(Observation&& other) noexcept;
    Observation& operator=(const Observation& other);
    Observation& operator=(Observation&& other) noexcept;
    ~Observation();
};

/// "since-clean", "history", "codes", "complaint", "noise", "fluid", "level", "outside",
/// "solenoid", "bore", "pressure", "air-check", "finger", "magnet-test", "squeeze", "debris",
/// "cooler", "converter", "end-play", "valve-body", "adaptation", "not-inspected", "overrule",
/// "filter-neck", "refill", "level-check", "road-test", "after-repair", "outcome", "taken-back",
/// "magnets".
std::string_view observationKind(const Observation& observation);
/// All kind names, in the order of the variant.
std::vector<std::string_view> observationKinds();

/// The observation as stored; fields that were not given are left out.
/// Checked: tests/bench/observation_json_test.cpp (every kind there and back).
nlohmann::ordered_json toJson(const Observation& observation);
/// Inverse. Throws std::invalid_argument naming the field that is missing or wrong.
Observation observationFromJson(std::string_view kind, const nlohmann::json& document);

/// The observation in one plain line, with what was typed beside what it converts to:
/// "solenoid A: 12.6 ohm at 80 C, 10.2 ohm at 20 C; leaks when off".
std::string describe(const Observation& observation);

} // namespace swarfbook
