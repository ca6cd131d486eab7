// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/drive_findings.h"

#include "bench/converter_clutch.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool meansAll(const std::string& gear) {
    return gear == "all" || gear == "every" || gear == "any" || gear == "forward";
}

bool sameSpot(const Complaint& one, const Complaint& other) {
    return one.gear == other.gear && one.shift == other.shift;
}

/// A load that was not said can be any; only the firmest, or another that is not said, covers it.
bool coversLoad(Load good, Load bad) {
    if (bad == Load::notSaid)
        return good == Load::notSaid || good == Load::firm;
    return good != Load::notSaid && good >= bad;
}

bool coversWarmth(Warmth good, Warmth bad) {
    if (good == Warmth::both)
        return true;
    if (bad == Warmth::notSaid)
        return good == Warmth::notSaid || good == Warmth::hot;
    return good == bad;
}

/// What was bad has been driven again as hard and as warm, and was good.
bool retestedGood(const DriveFinding& good, const DriveFinding& bad) {
    return sameSpot(good.felt, bad.felt) && coversLoad(good.driven.load, bad.driven.load) &&
           coversWarmth(good.driven.warmth, bad.driven.warmth);
}

bool takesBack(const DriveFinding& later, const DriveFinding& old) {
    if (!sameSpot(later.felt, old.felt))
        return false;
    if (later.good() && !old.good())
        return retestedGood(later, old);
    const bool alike = later.driven == old.driven;
    if (old.good())
        return alike || later.driven.plain();
    return later.felt.symptom == old.felt.symptom && alike && later.felt.note == old.felt.note;
}

bool within(const std::vector<std::string>& gears, const std::vector<std::string>& others) {
    return std::all_of(gears.begin(), gears.end(), [&](const std::string& gear) {
        return std::find(others.begin(), others.end(), gear) != others.end();
    });
}

/// The trade's word, explained where a customer would not know it.
std::string customersWord(Symptom symptom) {
    switch (symptom) {
    case Symptom::flare:
        return "flare (the engine races)";
    case Symptom::bind:
        return "bind (two gears hold at once)";
    case Symptom::failSafe:
        return "fail-safe (limp mode)";
    default:
        break;
    }
    std::string words(wordOf(symptom));
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

} // namespace

void addFelt(DriveFinding felt, std::vector<DriveFinding>& standing) {
    std::erase_if(standing, [&](const DriveFinding& old) { return takesBack(felt, old); });
    standing.push_back(std::move(felt));
}

void addHeard(Noise heard, std::vector<Noise>& standing) {
    std::erase_if(standing, [&](const Noise& old) {
        if (heard.noise == NoiseKind::none)
            return old.noise == NoiseKind::none ||
                   (heard.quietIn.empty()
                        ? old.heardIn.empty()
                        : !old.heardIn.empty() && within(old.heardIn, heard.quietIn));
        return old.noise == heard.noise || old.noise == NoiseKind::none;
    });
    standing.push_back(std::move(heard));
}

void addCodes(const Codes& read, std::vector<CodeFinding>& standing) {
    if (read.codes.empty())
        std::erase_if(standing,
                      [&](const CodeFinding& old) { return !old.onlyHot || read.onlyHot == true; });
    for (const std::string& text : read.codes) {
        std::erase_if(standing, [&](const CodeFinding& old) { return old.code.text == text; });
        standing.push_back({parseCode(text), read.onlyHot == true});
    }
}

DriveFinding driveFinding(const Complaint& felt, const WarmthLimits& limits, bool afterRepair) {
    return {felt, drivenOf(felt, limits), afterRepair,
            felt.stopsOnBrakeTap == true || namesConverterClutch(felt.gear) ||
                namesConverterClutch(felt.note)};
}

std::string symptomInWords(const Complaint& felt) {
    std::string words(wordOf(felt.symptom));
    std::replace(words.begin(), words.end(), '-', ' ');
    if (!felt.gear.empty())
        return words + " in " + felt.gear + (meansAll(felt.gear) ? " gears" : "");
    return felt.shift.empty() ? words : words + " at the shift " + felt.shift;
}

std::string inPlainWords(const DriveFinding& finding) {
    const Complaint& felt = finding.felt;
    std::string words = customersWord(felt.symptom);
    if (!felt.gear.empty())
        words += meansAll(felt.gear) ? " in " + felt.gear + " gears" : " in gear " + felt.gear;
    else if (!felt.shift.empty())
        words += " at the shift " + felt.shift;
    std::string how = inWords(finding.driven);
    if (!finding.felt.note.empty())
        how += (how.empty() ? "" : ", ") + finding.felt.note;
    return how.empty() ? words : words + " (" + how + ")";
}

} // namespace swarfbook
