// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/component_model.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <random>

using namespace swarfbook;

namespace {

bool holds(const std::vector<int>& clause, unsigned assignment) {
    for (const int literal : clause)
        if (((assignment >> (std::abs(literal) - 1)) & 1U) == (literal > 0 ? 1U : 0U))
            return true;
    return false;
}

/// Truth table: every assignment of the variables.
bool consistentByTable(const ComponentModel& model, const std::vector<int>& assumptions) {
    for (unsigned assignment = 0; assignment < (1U << model.variables()); ++assignment) {
        bool all = true;
        for (const auto& clause : model.clauses())
            all = all && holds(clause, assignment);
        for (const int literal : assumptions)
            all = all && holds({literal}, assignment);
        if (all)
            return true;
    }
    return false;
}

} // namespace

TEST_CASE("clauses hold together exactly if a truth table says so") {
    std::mt19937 dice(7);
    int yes = 0, no = 0;
    for (int round = 0; round < 400; ++round) {
        ComponentModel model;
        const int variables = 3 + static_cast<int>(dice() % 8);
        for (int v = 0; v < variables; ++v)
            model.addVariable();
        const auto literal = [&] {
            const int v = 1 + static_cast<int>(dice() % static_cast<unsigned>(variables));
            return dice() % 2 == 0 ? v : -v;
        };
        const auto clauses = dice() % 40;
        for (unsigned c = 0; c < clauses; ++c) {
            std::vector<int> clause;
            for (unsigned i = 0; i < 1 + dice() % 3; ++i)
                clause.push_back(literal());
            model.addClause(clause);
        }
        ClauseCheck check(model);
        for (int asked = 0; asked < 3; ++asked) {
            const std::vector<int> assumptions{literal(), literal()};
            const bool expected = consistentByTable(model, assumptions);
            CHECK(check.consistent(assumptions) == expected);
            ++(expected ? yes : no);
        }
    }
    CHECK(yes > 100);
    CHECK(no > 100);
}

TEST_CASE("a clause of an unknown variable is our own mistake") {
    ComponentModel model;
    CHECK_THROWS_AS(model.addClause({1}), std::logic_error);
    model.addComponent("one");
    CHECK_NOTHROW(model.addClause({-1}));
    CHECK_THROWS_AS(model.addClause({0}), std::logic_error);
}
