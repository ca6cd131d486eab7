// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/codes.h"

#include "base/errors.h"
#include "base/text.h"
#include "bench/enum_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace swarfbook {
namespace {

struct Range {
    int from, to; ///< the four digits as a number, both included
    CodeFamily family;
    std::string_view meaning;
    std::optional<OutsideItem> sensor = std::nullopt;
};

/// Ranges that need only their words; parseCode first handles codes that are split further.
constexpr std::array ranges{
    Range{100, 299, CodeFamily::engine, "the engine's air, fuel or sensors"},
    Range{300, 399, CodeFamily::engine, "the engine misfires or its ignition is at fault"},
    Range{400, 499, CodeFamily::engine, "the engine's emission control"},
    Range{500, 503, CodeFamily::input, "road speed signal", OutsideItem::speedSensor},
    Range{560, 563, CodeFamily::supply, "system voltage wrong"},
    Range{700, 702, CodeFamily::pointer, "the transmission controller asks to read its own codes"},
    Range{703, 703, CodeFamily::input, "brake switch signal", OutsideItem::brakeSwitch},
    Range{705, 709, CodeFamily::input, "selector range sensor", OutsideItem::selector},
    Range{710, 714, CodeFamily::input, "fluid temperature sensor", OutsideItem::temperatureSensor},
    Range{715, 718, CodeFamily::input, "input or turbine speed signal", OutsideItem::speedSensor},
    Range{719, 719, CodeFamily::input, "brake switch signal low", OutsideItem::brakeSwitch},
    Range{720, 723, CodeFamily::input, "output speed signal", OutsideItem::speedSensor},
    Range{724, 724, CodeFamily::input, "brake switch signal high", OutsideItem::brakeSwitch},
    Range{725, 728, CodeFamily::input, "engine speed signal", OutsideItem::engine},
    Range{730, 730, CodeFamily::ratio, "gear ratio wrong, the gear is not named"},
    Range{780, 780, CodeFamily::shift, "a shift went wrong"},
    Range{785, 785, CodeFamily::either, "shift timing solenoid"},
    Range{786, 786, CodeFamily::performance, "shift timing solenoid without effect"},
    Range{787, 789, CodeFamily::electrical, "shift timing solenoid circuit"},
    Range{791, 794, CodeFamily::input, "intermediate shaft speed signal", OutsideItem::speedSensor},
    Range{840, 849, CodeFamily::pressure, "fluid pressure switch"},
    Range{867, 869, CodeFamily::pressure, "fluid pressure implausible, low or high"},
    Range{893, 893, CodeFamily::slip, "more than one gear held at once"},
    Range{894, 894, CodeFamily::slip, "something in the transmission slips"},
    Range{895, 895, CodeFamily::slip, "a shift takes too little time"},
    Range{896, 896, CodeFamily::slip, "a shift takes too long"},
    Range{897, 897, CodeFamily::slip, "the controller holds the fluid for worn"},
    Range{2700, 2799, CodeFamily::notListed, "a further solenoid or clutch: read the maker's text"},
};

struct SolenoidRow {
    int first; ///< general; then performance or off, on, electrical, intermittent
    char letter;
    bool pressure;
};
constexpr std::array solenoidRows{
    SolenoidRow{745, 'A', true},  SolenoidRow{775, 'B', true},  SolenoidRow{795, 'C', true},
    SolenoidRow{2713, 'D', true}, SolenoidRow{2722, 'E', true}, SolenoidRow{2731, 'F', true},
    SolenoidRow{750, 'A', false}, SolenoidRow{755, 'B', false}, SolenoidRow{760, 'C', false},
    SolenoidRow{765, 'D', false}, SolenoidRow{770, 'E', false}};

bool readSolenoid(int number, TroubleCode& code) {
    for (const SolenoidRow& row : solenoidRows) {
        const int step = number - row.first;
        if (step < 0 || step > 4)
            continue;
        constexpr std::array families{CodeFamily::either, CodeFamily::performance,
                                      CodeFamily::performance, CodeFamily::electrical,
                                      CodeFamily::electrical};
        constexpr std::array<std::string_view, 5> words{
            "general fault", "stuck off or without effect", "stuck on", "circuit fault",
            "circuit fault that comes and goes"};
        code.family = families.at(static_cast<std::size_t>(step));
        code.solenoid = row.letter;
        code.pressureSolenoid = row.pressure;
        code.intermittent = step == 4;
        code.meaning = fmt::format("{} solenoid {}: {}", row.pressure ? "pressure" : "shift",
                                   row.letter, words.at(static_cast<std::size_t>(step)));
        return true;
    }
    return false;
}

/// Four codes follow each of the further pressure solenoids.
bool readFurtherCircuit(int number, TroubleCode& code) {
    for (const SolenoidRow& row : solenoidRows) {
        const int step = number - row.first - 5;
        if (row.first < 2700 || step < 0 || step > 3)
            continue;
        code.family = CodeFamily::electrical;
        code.solenoid = row.letter;
        code.pressureSolenoid = true;
        code.meaning = fmt::format("pressure solenoid {}: control circuit", row.letter);
        return true;
    }
    return false;
}

bool readControlCircuit(int number, TroubleCode& code) {
    const bool pressure = number >= 960 && number <= 971;
    if (!pressure && (number < 972 || number > 986))
        return false;
    const int index = pressure ? (number - 960) / 4 : (number - 972) / 3;
    code.family = CodeFamily::electrical;
    code.solenoid = static_cast<char>('A' + index);
    code.pressureSolenoid = pressure;
    code.meaning = fmt::format("{} solenoid {}: control circuit", pressure ? "pressure" : "shift",
                               code.solenoid);
    return true;
}

/// Ratio codes of the gears beyond the sixth, which lie elsewhere and have letters in them.
bool readHighGear(TroubleCode& code) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> gears{
        {{"P076F", "7"}, {"P07D9", "8"}, {"P07F6", "9"}, {"P07F7", "10"}}};
    const auto* found = std::find_if(gears.begin(), gears.end(),
                                     [&](const auto& one) { return one.first == code.text; });
    if (found == gears.end())
        return false;
    code.family = CodeFamily::ratio;
    code.gear = found->second;
    code.meaning = fmt::format("gear ratio wrong in gear {}", code.gear);
    return true;
}

bool readGear(int number, TroubleCode& code) {
    if ((number < 731 || number > 736) && number != 729)
        return false;
    code.family = CodeFamily::ratio;
    code.gear = number == 736 ? "R" : number == 729 ? "6" : std::to_string(number - 730);
    code.meaning = code.gear == "R" ? "gear ratio wrong in reverse"
                                    : fmt::format("gear ratio wrong in gear {}", code.gear);
    return true;
}

bool readShift(int number, TroubleCode& code) {
    if (number < 781 || number > 784)
        return false;
    code.family = CodeFamily::shift;
    code.shift = fmt::format("{}-{}", number - 780, number - 779);
    code.meaning = fmt::format("the {} shift went wrong", code.shift);
    return true;
}

bool readConverter(int number, TroubleCode& code) {
    if (number < 740 || number > 744)
        return false;
    code.converter = true;
    code.intermittent = number == 744;
    const bool performance = number == 741 || number == 742;
    code.family = performance ? CodeFamily::performance : CodeFamily::electrical;
    code.meaning = number == 741   ? "the converter clutch will not hold"
                   : number == 742 ? "the converter clutch will not release"
                                   : "converter clutch circuit";
    return true;
}

bool looksLikeCode(const std::string& text) {
    if (text.size() != 5 || std::string_view("PCBU").find(text[0]) == std::string_view::npos ||
        text[1] < '0' || text[1] > '3')
        return false;
    for (std::size_t i = 2; i < 5; ++i)
        if (std::isxdigit(static_cast<unsigned char>(text[i])) == 0)
            return false;
    return true;
}

} // namespace

std::string_view codeFamilyName(CodeFamily family) {
    constexpr std::array<std::string_view, 12> names{
        "pointer", "input", "ratio",    "electrical", "performance", "electrical or performance",
        "shift",   "slip",  "pressure", "supply",     "engine",      "not listed"};
    return names.at(static_cast<std::size_t>(family));
}

TroubleCode parseCode(std::string_view given) {
    TroubleCode code;
    for (const char c : given)
        code.text += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    if (!looksLikeCode(code.text))
        throw UsageError(fmt::format("\"{}\" is not a trouble code. A code is a letter and four "
                                     "digits, like P0733; \"none\" says that none was stored.",
                                     given));
    code.meaning = "not in our list: type the maker's text with --text";
    if (code.text[0] != 'P') {
        if (code.text[0] == 'U')
            code.meaning = "a control unit was not heard on the network";
        return code;
    }
    char* end = nullptr;
    const int number = static_cast<int>(std::strtol(code.text.c_str() + 1, &end, 10));
    if (readHighGear(code) || *end != '\0' || readConverter(number, code) ||
        readSolenoid(number, code) || readControlCircuit(number, code) ||
        readFurtherCircuit(number, code) || readGear(number, code) || readShift(number, code))
        return code;
    for (const Range& range : ranges)
        if (number >= range.from && number <= range.to) {
            code.family = range.family;
            code.meaning = range.meaning;
            code.sensor = range.sensor;
            if (number >= 785 && number <= 789)
                code.solenoid = "timing";
        }
    return code;
}

std::vector<std::string> codesTyped(const std::string& text) {
    const std::string word = wordAsTyped(text);
    if (word == "none" || word == "none-stored" || word == "no-codes")
        return {};
    std::string all = text;
    std::replace(all.begin(), all.end(), ',', ' ');
    std::istringstream each(all);
    std::vector<std::string> codes;
    for (std::string given; each >> given;)
        if (lowered(given) != "and")
            codes.push_back(parseCode(given).text);
    if (codes.empty())
        throw UsageError(
            "Say each code that was read, such as P0733, or none if no code was stored.");
    return codes;
}

} // namespace swarfbook
