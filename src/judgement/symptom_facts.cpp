// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/symptom_facts.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool meansAll(const std::string& gear) {
    return gear == "all" || gear == "every" || gear == "any" || gear == "forward";
}

void addTold(const Told& told, SymptomFacts& facts) {
    const bool said = std::any_of(facts.told.begin(), facts.told.end(),
                                  [&](const Told& one) { return one.words == told.words; });
    if (!said)
        facts.told.push_back(told);
}

void readSlip(const DriveFinding& finding, SymptomFacts& facts) {
    const Complaint& c = finding.felt;
    const bool none = c.symptom == Symptom::noDrive;
    if (finding.ofConverter) {
        facts.converterSlip = true;
    } else if (c.gear.empty() && c.shift.empty()) {
        (none ? facts.noDrive : facts.slipInGeneral) = true;
    } else if (meansAll(c.gear)) {
        facts.slipInGeneral = true;
        facts.noDrive |= none;
    } else if (!c.gear.empty()) {
        facts.slipGears.insert(c.gear);
        facts.noDriveInGear |= none;
    } else {
        facts.badShifts.push_back(c.shift + " slip");
    }
}

void readSymptom(const DriveFinding& finding, SymptomFacts& facts) {
    const Complaint& c = finding.felt;
    switch (c.symptom) {
    case Symptom::slip:
    case Symptom::noDrive:
        readSlip(finding, facts);
        break;
    case Symptom::shudder:
        facts.shudder = true;
        facts.converterSlip |= c.stopsOnBrakeTap == true;
        facts.notConverter |= c.stopsOnBrakeTap == false;
        break;
    case Symptom::failSafe:
        facts.failSafe = true;
        break;
    case Symptom::wrongGear:
        facts.wrongGear = true;
        break;
    case Symptom::overheats:
        facts.overheats = true;
        break;
    case Symptom::flare:
    case Symptom::bind:
        facts.badShifts.push_back(symptomInWords(c));
        break;
    case Symptom::harsh:
    case Symptom::late:
        facts.harshOrLate = true;
        break;
    case Symptom::good:
        break;
    }
}

void readDrive(const DriveFinding& finding, SymptomFacts& facts) {
    const Complaint& c = finding.felt;
    if (finding.good()) {
        if (!c.gear.empty())
            facts.goodGears.insert(c.gear);
        return;
    }
    addTold({inPlainWords(finding), false}, facts);
    facts.onlyHot |= finding.driven.warmth == Warmth::hot;
    if (!c.shift.empty())
        facts.shifts.insert(c.shift);
    readSymptom(finding, facts);
}

void readNoise(const Noise& noise, SymptomFacts& facts) {
    facts.quietGears.insert(noise.quietIn.begin(), noise.quietIn.end());
    if (noise.noise == NoiseKind::none)
        return;
    facts.noise = true;
    facts.whine |= noise.noise == NoiseKind::whine;
    facts.noiseGears.insert(noise.heardIn.begin(), noise.heardIn.end());
    std::string words(wordOf(noise.noise));
    for (std::size_t i = 0; i < noise.heardIn.size(); ++i)
        words += (i == 0 ? " in " : " and ") + noise.heardIn[i];
    addTold({words, true}, facts);
}

std::string joined(const std::vector<Told>& told, bool noises, bool others) {
    std::string text;
    for (const Told& one : told)
        if (one.noise ? noises : others)
            text += (text.empty() ? "" : ", ") + one.words;
    return text;
}

std::string withCodes(std::string text, const std::vector<TroubleCode>& codes) {
    std::string list;
    for (const TroubleCode& code : codes)
        list += (list.empty() ? "" : ", ") + code.text;
    if (!list.empty())
        text +=
            (text.empty() ? "" : "; ") + std::string(codes.size() == 1 ? "code " : "codes ") + list;
    return text;
}

} // namespace

std::vector<const TroubleCode*> SymptomFacts::ofFamily(CodeFamily family) const {
    std::vector<const TroubleCode*> found;
    for (const TroubleCode& code : codes)
        if (code.family == family)
            found.push_back(&code);
    return found;
}

std::vector<const TroubleCode*> SymptomFacts::circuits() const {
    return ofFamily(CodeFamily::electrical);
}

std::vector<const TroubleCode*> SymptomFacts::performances() const {
    auto found = ofFamily(CodeFamily::performance);
    for (const TroubleCode* code : ofFamily(CodeFamily::either))
        found.push_back(code);
    return found;
}

bool SymptomFacts::slips() const {
    return slipsInDefinedGears() || slipInGeneral || noDrive || has(CodeFamily::ratio) ||
           has(CodeFamily::slip);
}

bool SymptomFacts::anyBad() const {
    return slips() || !badShifts.empty() || shudder || converterSlip || failSafe || wrongGear ||
           overheats || noise;
}

bool SymptomFacts::anyCode() const {
    return std::any_of(codes.begin(), codes.end(),
                       [](const auto& c) { return c.family != CodeFamily::pointer; });
}

std::string SymptomFacts::inWords() const {
    return withCodes(joined(told, true, true), codes);
}

std::string SymptomFacts::inWordsWithoutNoise() const {
    return withCodes(joined(told, false, true), codes);
}

std::string SymptomFacts::noisesInWords() const {
    return joined(told, true, false);
}

SymptomFacts symptomFacts(const VisitFindings& findings) {
    SymptomFacts facts;
    facts.driveTold = findings.driveTold;
    for (const DriveFinding& finding : findings.drive)
        readDrive(finding, facts);
    for (const Noise& noise : findings.noises)
        readNoise(noise, facts);
    facts.codesRead = findings.codesRead;
    for (const CodeFinding& found : findings.codes) {
        const TroubleCode& code = found.code;
        facts.codes.push_back(code);
        facts.onlyHot |= found.onlyHot;
        if (code.family == CodeFamily::ratio && !code.gear.empty())
            facts.ratioGears.insert(code.gear);
        facts.converterSlip |=
            code.converter && code.family == CodeFamily::performance && !facts.notConverter;
    }
    return facts;
}

} // namespace swarfbook
