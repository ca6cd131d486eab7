// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/symptom_facts.h"

#include "base/text.h"

#include <algorithm>
#include <map>

namespace swarfbook {
namespace {

bool meansAll(const std::string& gear) {
    return gear == "all" || gear == "every" || gear == "any" || gear == "forward";
}

std::string inPlainWords(const Complaint& c) {
    std::string words(wordOf(c.symptom));
    std::replace(words.begin(), words.end(), '-', ' ');
    if (!c.gear.empty())
        words += meansAll(c.gear) ? " in " + c.gear + " gears" : " in " + c.gear;
    else if (!c.shift.empty())
        words += " at the shift " + c.shift;
    return c.note.empty() ? words : words + " (" + c.note + ")";
}

void readSlip(const Complaint& c, SymptomFacts& facts) {
    const bool none = c.symptom == Symptom::noDrive;
    if (c.stopsOnBrakeTap == true || namesConverter(c.note) || namesConverter(c.gear)) {
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

void readSymptom(const Complaint& c, const std::string& words, SymptomFacts& facts) {
    switch (c.symptom) {
    case Symptom::slip:
    case Symptom::noDrive:
        readSlip(c, facts);
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
        facts.badShifts.push_back(words);
        break;
    case Symptom::harsh:
    case Symptom::late:
        facts.harshOrLate = true;
        if (!c.shift.empty())
            facts.mildShifts.push_back(words);
        break;
    case Symptom::good:
        break;
    }
}

void readComplaint(const Complaint& c, SymptomFacts& facts) {
    facts.driveTold = true;
    if (c.symptom == Symptom::good) {
        if (!c.gear.empty())
            facts.goodGears.insert(c.gear);
        return;
    }
    const std::string words = inPlainWords(c);
    facts.told.push_back(words);
    facts.onlyHot |= c.warmth == Warmth::hot;
    readSymptom(c, words, facts);
}

/// The latest word on each gear, each shift and the whole counts; a general "good" takes back what
/// was said before it.
std::vector<Complaint> latestComplaints(const VisitEvidence& visit) {
    std::vector<Complaint> kept;
    for (const Observation& observation : visit.observations) {
        const auto* c = std::get_if<Complaint>(&observation);
        if (c == nullptr)
            continue;
        const bool general = c->gear.empty() && c->shift.empty();
        if (general && c->symptom == Symptom::good)
            kept.clear();
        std::erase_if(kept, [&](const Complaint& old) {
            const bool sameSpot = old.gear == c->gear && old.shift == c->shift;
            if (!sameSpot)
                return false;
            // in general several symptoms stand side by side; in a gear so do unlike ones
            return old.symptom == c->symptom || old.symptom == Symptom::good ||
                   (!general && c->symptom == Symptom::good);
        });
        kept.push_back(*c);
    }
    return kept;
}

void readNoise(const Noise& noise, SymptomFacts& facts) {
    facts.driveTold = true;
    facts.noise = noise.noise != NoiseKind::none;
    facts.noiseGears = {noise.heardIn.begin(), noise.heardIn.end()};
    facts.quietGears = {noise.quietIn.begin(), noise.quietIn.end()};
    if (!facts.noise)
        return;
    std::string words(wordOf(noise.noise));
    for (std::size_t i = 0; i < noise.heardIn.size(); ++i)
        words += (i == 0 ? " in " : " and ") + noise.heardIn[i];
    facts.told.push_back(words);
}

void readCodes(const Codes& codes, SymptomFacts& facts) {
    if (codes.when == CodesWhen::after)
        return;
    facts.codesRead = true;
    if (codes.codes.empty())
        facts.codes.clear();
    for (const std::string& text : codes.codes) {
        TroubleCode code = parseCode(text);
        const bool known = std::any_of(facts.codes.begin(), facts.codes.end(),
                                       [&](const auto& c) { return c.text == code.text; });
        if (!known)
            facts.codes.push_back(std::move(code));
    }
    facts.onlyHot |= codes.onlyHot == true;
}

} // namespace

bool namesConverter(const std::string& text) {
    const std::string lower = lowered(text);
    for (const char* word : {"converter", "tcc", "lock-up", "lockup"})
        if (lower.find(word) != std::string::npos)
            return true;
    return false;
}

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
    std::string text;
    for (const std::string& symptom : told)
        text += (text.empty() ? "" : ", ") + symptom;
    std::string list;
    for (const TroubleCode& code : codes)
        list += (list.empty() ? "" : ", ") + code.text;
    if (!list.empty())
        text +=
            (text.empty() ? "" : "; ") + std::string(codes.size() == 1 ? "code " : "codes ") + list;
    return text;
}

SymptomFacts symptomFacts(const VisitEvidence& visit) {
    SymptomFacts facts;
    for (const Complaint& complaint : latestComplaints(visit))
        readComplaint(complaint, facts);
    for (const Observation& observation : visit.observations) {
        if (const auto* noise = std::get_if<Noise>(&observation))
            readNoise(*noise, facts);
        else if (const auto* codes = std::get_if<Codes>(&observation))
            readCodes(*codes, facts);
    }
    for (const TroubleCode& code : facts.codes) {
        if (code.family == CodeFamily::ratio && !code.gear.empty())
            facts.ratioGears.insert(code.gear);
        facts.converterSlip |=
            code.converter && code.family == CodeFamily::performance && !facts.notConverter;
    }
    return facts;
}

} // namespace swarfbook
