// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination_reader.h"
#include "unit/unit_solenoids.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

class CodeReader {
  public:
    CodeReader(const ApplicationChart& chart, const CodeContext& context, EliminationEvidence& into)
        : chart_(chart), context_(context), into_(into) {}

    void read(const std::vector<CodeFinding>& all) {
        electrical_ = static_cast<int>(std::count_if(all.begin(), all.end(), [](const auto& c) {
            return c.code.family == CodeFamily::electrical;
        }));
        for (const CodeFinding& one : all)
            read(one);
    }

  private:
    static Driven drivenAt(const CodeFinding& one) {
        return {Load::notSaid, one.onlyHot ? Warmth::hot : Warmth::notSaid};
    }

    void note(const std::string& sentence) { into_.notes.push_back(sentence); }

    void read(const CodeFinding& one) {
        const TroubleCode& code = one.code;
        const std::string told = "code " + code.text;
        switch (code.family) {
        case CodeFamily::ratio:
            return readRatio(one, told);
        case CodeFamily::shift:
            return readShift(one, told);
        case CodeFamily::electrical:
        case CodeFamily::performance:
        case CodeFamily::either:
            return code.converter ? readConverter(code, told) : readSolenoid(code, told);
        case CodeFamily::pressure:
            return oneOf(pressureParts(), told);
        case CodeFamily::supply:
            return oneOf({{PartKind::common, supplyPart}}, told);
        case CodeFamily::input:
            return note(fmt::format("Code {} belongs to a sensor or switch ({}): put that right "
                                    "before trusting gears and ratios.",
                                    code.text, code.meaning));
        case CodeFamily::slip:
            return note(fmt::format("Code {} ({}) names no gear, so it eliminates nothing.",
                                    code.text, code.meaning));
        default:
            return;
        }
    }

    void readRatio(const CodeFinding& one, const std::string& told) {
        if (one.code.gear.empty())
            return note(
                fmt::format("Code {} names no gear, so it eliminates nothing.", one.code.text));
        if (chart_.gear(one.code.gear) == nullptr)
            return note(fmt::format("Code {} names gear {}, which is not in the chart of {}.",
                                    one.code.text, one.code.gear, chart_.unit));
        into_.gears.push_back({one.code.gear, GearResult::wrongRatio,
                               drivenWhenBad(into_, one.code.gear, drivenAt(one)), told});
    }

    void readShift(const CodeFinding& one, const std::string& told) {
        const std::size_t dash = one.code.shift.find('-');
        if (dash == std::string::npos)
            return note(
                fmt::format("Code {} names no shift, so it eliminates nothing.", one.code.text));
        const std::string from = one.code.shift.substr(0, dash),
                          to = one.code.shift.substr(dash + 1);
        if (chart_.gear(from) != nullptr && chart_.gear(to) != nullptr)
            into_.shifts.push_back({from, to, ShiftResult::unlike, drivenAt(one), told});
    }

    void readConverter(const TroubleCode& code, const std::string& told) {
        if (code.family != CodeFamily::electrical)
            return into_.converterBad.push_back(told);
        std::vector<PartName> parts;
        for (const ApplicationChart::Solenoid& s : chart_.solenoids)
            if (servesConverter(s))
                addCircuit(s.name, code, parts);
        electricalOneOf(std::move(parts), told);
    }

    void readSolenoid(const TroubleCode& code, const std::string& told) {
        const ApplicationChart::Solenoid* solenoid = solenoidOfCode(chart_, code);
        if (solenoid == nullptr)
            return note(
                fmt::format("Code {} means {} solenoid {}, and the chart of {} does not say "
                            "which one that is.",
                            code.text, code.pressureSolenoid ? "pressure" : "shift",
                            code.solenoid.empty() ? "?" : code.solenoid, chart_.unit));
        std::vector<PartName> parts;
        if (code.family != CodeFamily::performance)
            addCircuit(solenoid->name, code, parts);
        if (code.family == CodeFamily::electrical)
            return electricalOneOf(std::move(parts), told);
        parts.push_back({PartKind::solenoid, solenoid->name});
        for (PartName& bore : boresOf(chart_, solenoid->name))
            parts.push_back(std::move(bore));
        oneOf(std::move(parts), told);
    }

    /// Circuit and coil; a coil that reads right is left out unless the fault comes and goes.
    void addCircuit(const std::string& solenoid, const TroubleCode& code,
                    std::vector<PartName>& parts) const {
        parts.push_back({PartKind::circuit, solenoid});
        const SolenoidVerdict* v = context_.solenoids.find(solenoid);
        const bool coilRight = v != nullptr && !v->coilFault &&
                               v->state >= SolenoidState::coilGood &&
                               (!code.intermittent || v->hotTested);
        if (!coilRight)
            parts.push_back({PartKind::solenoid, solenoid});
    }

    void electricalOneOf(std::vector<PartName> parts, const std::string& told) {
        if (electrical_ >= context_.settings.sharedFeedFrom())
            parts.push_back({PartKind::common, supplyPart});
        oneOf(std::move(parts), told);
    }

    void oneOf(std::vector<PartName> parts, const std::string& told) {
        if (!parts.empty())
            into_.oneOf.push_back({std::move(parts), told});
    }

    [[nodiscard]] std::vector<PartName> pressureParts() const {
        std::vector<PartName> parts{{PartKind::common, fluidLevelPart},
                                    {PartKind::common, linePressurePart}};
        for (const ApplicationChart::Solenoid& s : chart_.solenoids) {
            if (!s.common || servesConverter(s))
                continue;
            parts.push_back({PartKind::solenoid, s.name});
            for (PartName& bore : boresOf(chart_, s.name))
                parts.push_back(std::move(bore));
        }
        return parts;
    }

    const ApplicationChart& chart_;
    const CodeContext& context_;
    EliminationEvidence& into_;
    int electrical_ = 0;
};

} // namespace

void readCodesForElimination(const ApplicationChart& chart, const VisitFindings& findings,
                             const CodeContext& context, EliminationEvidence& into) {
    CodeReader(chart, context, into).read(findings.codes);
}

Driven drivenWhenBad(const EliminationEvidence& evidence, const std::string& gear,
                     const Driven& otherwise) {
    for (const GearSeen& seen : evidence.gears)
        if (seen.gear == gear && seen.result != GearResult::good)
            return seen.driven;
    return otherwise;
}

} // namespace swarfbook
