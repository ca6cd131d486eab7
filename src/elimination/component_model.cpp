// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/component_model.h"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

namespace swarfbook {
namespace {

/// +v and -v side by side.
std::size_t indexOf(int literal) {
    return 2 * static_cast<std::size_t>(std::abs(literal)) + (literal < 0 ? 1 : 0);
}

} // namespace

std::size_t ComponentModel::addComponent(std::string name) {
    names_.push_back(std::move(name));
    inOrder_.push_back(addVariable());
    return names_.size() - 1;
}

void ComponentModel::addClause(std::vector<int> literals) {
    for (const int literal : literals)
        if (literal == 0 || std::abs(literal) > variables_)
            throw std::logic_error("a clause names a variable that was not added");
    clauses_.push_back(std::move(literals));
}

std::size_t ComponentModel::componentNamed(std::string_view name) const {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found == names_.end())
        throw std::logic_error("no component " + std::string(name));
    return static_cast<std::size_t>(found - names_.begin());
}

ClauseCheck::ClauseCheck(const ComponentModel& model)
    : clauses_(model.clauses()), with_(2 * static_cast<std::size_t>(model.variables()) + 2),
      value_(static_cast<std::size_t>(model.variables()) + 1), counts_(clauses_.size()) {
    for (std::size_t clause = 0; clause < clauses_.size(); ++clause) {
        emptyClause_ = emptyClause_ || clauses_[clause].empty();
        for (const int literal : clauses_[clause])
            with_[indexOf(literal)].push_back(clause);
    }
}

signed char ClauseCheck::valueOf(int literal) const {
    const signed char value = value_[static_cast<std::size_t>(std::abs(literal))];
    return static_cast<signed char>(literal < 0 ? -value : value);
}

int ClauseCheck::openLiteral(std::size_t clause) const {
    for (const int literal : clauses_[clause])
        if (valueOf(literal) == 0)
            return literal;
    return 0;
}

/// Sets a literal and counts it in its clauses. @return false when one of them can hold no more.
bool ClauseCheck::decide(int literal) {
    if (valueOf(literal) != 0)
        return valueOf(literal) > 0;
    value_[static_cast<std::size_t>(std::abs(literal))] = literal > 0 ? 1 : -1;
    decided_.push_back(literal);
    for (const std::size_t clause : with_[indexOf(literal)])
        ++counts_[clause].holds;
    bool possible = true;
    for (const std::size_t clause : with_[indexOf(-literal)])
        possible = ++counts_[clause].fails < static_cast<int>(clauses_[clause].size()) && possible;
    return possible;
}

/// Sets the literals that follow from those decided since `from`.
bool ClauseCheck::settle(std::size_t from) {
    for (std::size_t at = from; at < decided_.size(); ++at)
        for (const std::size_t clause : with_[indexOf(-decided_[at])]) {
            const Count& count = counts_[clause];
            if (count.holds > 0 || count.fails + 1 != static_cast<int>(clauses_[clause].size()))
                continue;
            const int last = openLiteral(clause);
            if (last != 0 && !decide(last))
                return false;
        }
    return true;
}

void ClauseCheck::undo(std::size_t to) {
    while (decided_.size() > to) {
        const int literal = decided_.back();
        decided_.pop_back();
        value_[static_cast<std::size_t>(std::abs(literal))] = 0;
        for (const std::size_t clause : with_[indexOf(literal)])
            --counts_[clause].holds;
        for (const std::size_t clause : with_[indexOf(-literal)])
            --counts_[clause].fails;
    }
}

bool ClauseCheck::search() {
    const auto open = std::find_if(counts_.begin(), counts_.end(),
                                   [](const Count& count) { return count.holds == 0; });
    if (open == counts_.end())
        return true;
    const int literal = openLiteral(static_cast<std::size_t>(open - counts_.begin()));
    if (literal == 0)
        return false;
    for (const int choice : {literal, -literal}) {
        const std::size_t before = decided_.size();
        if (decide(choice) && settle(before) && search())
            return true;
        undo(before);
    }
    return false;
}

bool ClauseCheck::consistent(const std::vector<int>& assumptions) {
    if (emptyClause_)
        return false;
    bool possible = true;
    for (std::size_t clause = 0; clause < clauses_.size() && possible; ++clause)
        if (clauses_[clause].size() == 1)
            possible = decide(clauses_[clause].front());
    for (std::size_t i = 0; i < assumptions.size() && possible; ++i)
        possible = decide(assumptions[i]);
    possible = possible && settle(0) && search();
    undo(0);
    return possible;
}

} // namespace swarfbook
