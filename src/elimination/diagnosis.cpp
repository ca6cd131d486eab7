// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/diagnosis.h"

#include <algorithm>
#include <set>

namespace swarfbook {
namespace {

bool disjoint(const ComponentSet& a, const ComponentSet& b) {
    return std::none_of(a.begin(), a.end(),
                        [&](std::size_t c) { return std::binary_search(b.begin(), b.end(), c); });
}

class HittingSets {
  public:
    HittingSets(const ComponentModel& model, const DiagnosisOptions& options)
        : model_(model), options_(options), check_(model) {}

    Diagnoses find() {
        std::set<ComponentSet> level{{}};
        for (std::size_t size = 0; size <= options_.mostFaults && !level.empty(); ++size) {
            std::set<ComponentSet> next;
            for (const ComponentSet& node : level)
                visit(node, next);
            if (options_.smallestOnly && !found_.sets.empty())
                break;
            level = std::move(next);
        }
        return std::move(found_);
    }

  private:
    void visit(const ComponentSet& node, std::set<ComponentSet>& next) {
        const bool covered =
            std::any_of(found_.sets.begin(), found_.sets.end(), [&](const auto& set) {
                return std::includes(node.begin(), node.end(), set.begin(), set.end());
            });
        if (covered)
            return;
        const ComponentSet* conflict = conflictBeside(node);
        if (conflict == nullptr) {
            found_.sets.push_back(node);
            return;
        }
        if (conflict->empty())
            found_.contradictory = true;
        for (const std::size_t component : *conflict) {
            ComponentSet longer = node;
            longer.insert(std::upper_bound(longer.begin(), longer.end(), component), component);
            next.insert(std::move(longer));
        }
    }

    /// A minimal conflict that shares nothing with the node; nullptr when the node explains all.
    const ComponentSet* conflictBeside(const ComponentSet& node) {
        for (const ComponentSet& known : found_.conflicts)
            if (disjoint(known, node))
                return &known;
        ComponentSet others;
        for (std::size_t c = 0; c < model_.components(); ++c)
            if (!std::binary_search(node.begin(), node.end(), c))
                others.push_back(c);
        if (inOrderTogether(others))
            return nullptr;
        found_.conflicts.push_back(minimal(std::move(others)));
        return &found_.conflicts.back();
    }

    bool inOrderTogether(const ComponentSet& components) {
        std::vector<int> assumptions;
        for (const std::size_t c : components)
            assumptions.push_back(model_.inOrder(c));
        return check_.consistent(assumptions);
    }

    /// Leaves out, one after the other, the components that the conflict does not need.
    ComponentSet minimal(ComponentSet conflict) {
        for (std::size_t at = conflict.size(); at-- > 0;) {
            ComponentSet without = conflict;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(at));
            if (!inOrderTogether(without))
                conflict = std::move(without);
        }
        return conflict;
    }

    const ComponentModel& model_;
    const DiagnosisOptions& options_;
    ClauseCheck check_;
    Diagnoses found_;
};

} // namespace

Diagnoses minimalDiagnoses(const ComponentModel& model, const DiagnosisOptions& options) {
    return HittingSets(model, options).find();
}

} // namespace swarfbook
