// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// A system of components as propositional clauses: how each behaves while it is in order, how
/// they are joined, and what was observed. A clause is a list of literals of which at least one
/// holds; the literal +v says that variable v is true, -v that it is false.
///
/// Every component has a variable "it is in order". What a faulty component does is left open
/// unless a clause restricts it.
class ComponentModel {
  public:
    /// Adds a component. @return its number, from 0 on.
    std::size_t addComponent(std::string name);
    /// @return a new variable, from 1 on.
    int addVariable() { return ++variables_; }
    /// Throws std::logic_error for a literal without a variable. An empty clause contradicts all.
    void addClause(std::vector<int> literals);

    [[nodiscard]] std::size_t components() const { return names_.size(); }
    [[nodiscard]] const std::string& name(std::size_t component) const {
        return names_.at(component);
    }
    /// Throws std::logic_error if there is no component of that name.
    [[nodiscard]] std::size_t componentNamed(std::string_view name) const;
    /// The variable "this component is in order".
    [[nodiscard]] int inOrder(std::size_t component) const { return inOrder_.at(component); }
    [[nodiscard]] int variables() const { return variables_; }
    [[nodiscard]] const std::vector<std::vector<int>>& clauses() const { return clauses_; }

  private:
    std::vector<std::string> names_;
    std::vector<int> inOrder_;
    std::vector<std::vector<int>> clauses_;
    int variables_ = 0;
};

/// Finds out whether clauses can hold together with assumptions: search with unit propagation
/// (Davis, Logemann and Loveland 1962). Complete; meant for some hundred variables.
/// Checked: tests/elimination/component_model_test.cpp (against truth tables).
class ClauseCheck {
  public:
    explicit ClauseCheck(const ComponentModel& model);
    /// @param assumptions literals that are to hold besides the clauses.
    [[nodiscard]] bool consistent(const std::vector<int>& assumptions);

  private:
    struct Count {
        int holds = 0, fails = 0; ///< literals of the clause so decided
    };
    [[nodiscard]] signed char valueOf(int literal) const;
    bool decide(int literal);
    bool settle(std::size_t from);
    void undo(std::size_t to);
    bool search();
    [[nodiscard]] int openLiteral(std::size_t clause) const;

    const std::vector<std::vector<int>>& clauses_;
    std::vector<std::vector<std::size_t>> with_; ///< clauses with a literal, by its index
    std::vector<signed char> value_;             ///< by variable: 0 open, 1 true, -1 false
    std::vector<Count> counts_;
    std::vector<int> decided_; ///< literals, in the order they were set
    bool emptyClause_ = false;
};

} // namespace swarfbook
