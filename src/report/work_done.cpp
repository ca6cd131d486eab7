// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/work_done.h"

#include "bench/describe_parts.h"
#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace swarfbook {
namespace {

using Sentences = std::vector<std::string>;

/// The test result of a part that was worked on, if it was bad at this visit.
std::string foundBad(const std::string& work, const PartVerdicts& parts) {
    const auto names = [&](const char* kind, const std::string& name) {
        return work.starts_with(std::string(kind) + " " + name + " ");
    };
    for (const SolenoidVerdict& solenoid : parts.solenoids.each)
        if (names("solenoid", solenoid.name) &&
            (solenoid.state == SolenoidState::suspect || solenoid.state == SolenoidState::proven))
            return solenoid.sentence;
    for (const BoreVerdict& bore : parts.bores.each)
        if (names("bore", bore.name) && bore.state >= BoreState::marginal)
            return bore.sentence;
    return {};
}

/// The sentences of each kind of observation that records work.
class WorkTold {
  public:
    explicit WorkTold(const PartVerdicts& parts) : parts_(parts) {}

    template <class Other> void add(const Other& /*records no work*/) {}

    void add(const AfterRepair& o) {
        for (const std::string& work : o.work) {
            const std::string found = foundBad(work + " ", parts_);
            say(found.empty() ? work : fmt::format("{}. Found before: {}", work, found));
        }
        if (o.work.empty() && !o.parts.empty())
            say("renewed or repaired: " + describing::joined(o.parts));
        else if (o.work.empty() && !o.did.empty())
            say(o.did);
        if (o.adaptation == AdaptationDone::done)
            say("adaptation done");
        if (o.selectorCycled == true)
            say("selector moved through every position");
        if (o.leaks)
            say(*o.leaks ? "a leak was seen once it was warm" : "no leaks seen once it was warm");
    }
    void add(const Refill& o) {
        std::string text = o.filled ? "fluid filled in: " + describing::typed(o.filled, "l", 2)
                                    : "fluid filled in";
        if (!o.fluid.empty())
            text += (o.filled ? " of " : ": ") + o.fluid;
        say(text);
    }
    void add(const LevelCheck& o) {
        const std::string at = o.at ? " at " + describing::typed(o.at, "C", 0) : "";
        say(fmt::format("fluid level checked{}: {}", at, wordOf(o.found)));
    }
    void add(const Codes& o) {
        if (o.when != CodesWhen::after)
            return;
        say("codes read after the work: " +
            (o.codes.empty() ? "none stored" : describing::joined(o.codes)));
    }
    void add(const RoadTest& o) {
        std::string text = "road test after the work: " + symptomInWords(o);
        if (o.load != Load::notSaid)
            text += fmt::format(", {} load", wordOf(o.load));
        if (o.warmth != Warmth::notSaid)
            text += fmt::format(", {}", wordOf(o.warmth));
        if (o.temperature)
            text += " at " + describing::typed(o.temperature, "C", 0);
        say(text);
    }

    Sentences told;

  private:
    /// Each once, as the same work may be typed twice.
    void say(const std::string& text) {
        const std::string sentence = asSentence(text);
        if (std::find(told.begin(), told.end(), sentence) == told.end())
            told.push_back(sentence);
    }

    const PartVerdicts& parts_;
};

} // namespace

std::vector<std::string> workSentences(const VisitEvidence& visit, const PartVerdicts& parts) {
    WorkTold work(parts);
    for (const Observation& observation : visit.observations)
        std::visit([&](const auto& o) { work.add(o); }, observation);
    return work.told;
}

} // namespace swarfbook
