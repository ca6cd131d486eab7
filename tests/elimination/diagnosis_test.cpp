// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/diagnosis.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

using namespace swarfbook;

namespace {

enum class Gate { both, either, oneOnly };

/// While the gate is in order its output is that function of its inputs.
void addGate(ComponentModel& model, const std::string& name, Gate gate,
             const std::vector<int>& inputsThenOutput) {
    const int ok = model.inOrder(model.addComponent(name));
    const int a = inputsThenOutput[0], b = inputsThenOutput[1], out = inputsThenOutput[2];
    for (const bool x : {false, true})
        for (const bool y : {false, true}) {
            const bool z = gate == Gate::both ? x && y : gate == Gate::either ? x || y : x != y;
            model.addClause({-ok, x ? -a : a, y ? -b : b, z ? out : -out});
        }
}

void observe(ComponentModel& model, int variable, bool value) {
    model.addClause({value ? variable : -variable});
}

std::set<std::set<std::string>> named(const ComponentModel& model,
                                      const std::vector<ComponentSet>& sets) {
    std::set<std::set<std::string>> all;
    for (const ComponentSet& set : sets) {
        std::set<std::string> names;
        for (const std::size_t c : set)
            names.insert(model.name(c));
        all.insert(names);
    }
    return all;
}

/// The full adder: two exclusive-or, two and, one or.
ComponentModel fullAdder() {
    ComponentModel m;
    const int a = m.addVariable(), b = m.addVariable(), carryIn = m.addVariable();
    const int half = m.addVariable(), sum = m.addVariable();
    const int carry1 = m.addVariable(), carry2 = m.addVariable(), carryOut = m.addVariable();
    addGate(m, "X1", Gate::oneOnly, {a, b, half});
    addGate(m, "X2", Gate::oneOnly, {half, carryIn, sum});
    addGate(m, "A1", Gate::both, {a, b, carry1});
    addGate(m, "A2", Gate::both, {half, carryIn, carry2});
    addGate(m, "O1", Gate::either, {carry1, carry2, carryOut});
    observe(m, a, true);
    observe(m, b, false);
    observe(m, carryIn, true);
    observe(m, sum, true);
    observe(m, carryOut, false);
    return m;
}

bool subset(unsigned inner, unsigned outer) {
    return (inner & outer) == inner;
}

/// All minimal fault sets by trying every one of them, smallest first.
std::vector<ComponentSet> bySearch(const ComponentModel& model) {
    ClauseCheck check(model);
    std::vector<unsigned> minimal;
    const unsigned all = 1U << model.components();
    for (int size = 0; size <= static_cast<int>(model.components()); ++size)
        for (unsigned faults = 0; faults < all; ++faults) {
            if (__builtin_popcount(faults) != size ||
                std::any_of(minimal.begin(), minimal.end(),
                            [&](unsigned known) { return subset(known, faults); }))
                continue;
            std::vector<int> assumptions;
            for (std::size_t c = 0; c < model.components(); ++c)
                if ((faults >> c & 1U) == 0)
                    assumptions.push_back(model.inOrder(c));
            if (check.consistent(assumptions))
                minimal.push_back(faults);
        }
    std::vector<ComponentSet> sets;
    for (const unsigned faults : minimal) {
        ComponentSet set;
        for (std::size_t c = 0; c < model.components(); ++c)
            if ((faults >> c & 1U) != 0)
                set.push_back(c);
        sets.push_back(set);
    }
    std::sort(sets.begin(), sets.end(), [](const auto& a, const auto& b) {
        return a.size() != b.size() ? a.size() < b.size() : a < b;
    });
    return sets;
}

/// A drawn system of gates with drawn observations.
ComponentModel drawnSystem(std::mt19937& dice) {
    ComponentModel m;
    std::vector<int> wires{m.addVariable(), m.addVariable(), m.addVariable()};
    const auto gates = 3 + dice() % 5;
    for (std::size_t g = 0; g < gates; ++g) {
        const int out = m.addVariable();
        addGate(m, "G" + std::to_string(g), static_cast<Gate>(dice() % 3),
                {wires[dice() % wires.size()], wires[dice() % wires.size()], out});
        wires.push_back(out);
    }
    for (const int wire : wires)
        if (dice() % 3 != 0)
            observe(m, wire, dice() % 2 == 0);
    return m;
}

} // namespace

// Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32 (1987): the full
// adder with inputs 1, 0, 1 and outputs sum 1, carry 0. The expected diagnoses are from memory.
TEST_CASE("the full adder has the diagnoses of the textbook") {
    const ComponentModel adder = fullAdder();
    const Diagnoses found = minimalDiagnoses(adder, {.mostFaults = 5});
    using Sets = std::set<std::set<std::string>>;
    CHECK(named(adder, found.sets) == Sets{{"X1"}, {"X2", "O1"}, {"X2", "A2"}});
    CHECK(found.sets.front().size() == 1);
    CHECK(named(adder, found.conflicts) == Sets{{"X1", "X2"}, {"X1", "A2", "O1"}});
    CHECK_FALSE(found.contradictory);
    const Diagnoses smallest = minimalDiagnoses(adder, {.mostFaults = 5, .smallestOnly = true});
    CHECK(named(adder, smallest.sets) == Sets{{"X1"}});
}

TEST_CASE("the diagnoses are those that a search over all fault sets finds") {
    std::mt19937 dice(1987);
    std::size_t pairs = 0;
    for (int round = 0; round < 400; ++round) {
        const ComponentModel system = drawnSystem(dice);
        const Diagnoses found = minimalDiagnoses(system, {.mostFaults = system.components()});
        const auto expected = bySearch(system);
        CHECK(found.sets == expected);
        CHECK(found.contradictory == expected.empty());
        pairs += static_cast<std::size_t>(std::count_if(
            expected.begin(), expected.end(), [](const auto& set) { return set.size() > 1; }));
    }
    CHECK(pairs > 50);
}

TEST_CASE("if everything is as it should be, nothing need be faulty") {
    ComponentModel m;
    const int ok = m.inOrder(m.addComponent("lamp"));
    const int lit = m.addVariable();
    m.addClause({-ok, lit});
    m.addClause({lit});
    CHECK(minimalDiagnoses(m).sets == std::vector<ComponentSet>{{}});
}

TEST_CASE("observations that contradict each other are reported, and nothing is blamed") {
    ComponentModel m;
    m.addComponent("lamp");
    const int lit = m.addVariable();
    m.addClause({lit});
    m.addClause({-lit});
    const Diagnoses found = minimalDiagnoses(m);
    CHECK(found.sets.empty());
    CHECK(found.contradictory);
}
