// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"
#include "particles/particle.h"

#include <optional>
#include <string>

namespace swarfbook {

/// What was tried by hand on the debris of one place. A test that names no place is of all debris.
class HandTests {
  public:
    HandTests(const VisitFindings& findings, Where place);

    /// By a magnet under the paper alone; not known where some moves and some stays.
    [[nodiscard]] Ferrous byMagnet() const;
    /// By a magnet under the paper, else by the pliers: what bends is aluminium or brass.
    [[nodiscard]] Ferrous magnetic() const;
    /// How much of the bright pieces the magnet left or took.
    [[nodiscard]] Amount share() const { return share_; }
    /// Felt, moved by a magnet, or bent or broken in the pliers: metal indeed.
    [[nodiscard]] bool confirmMetal() const { return felt_ || moves_ || bends_ || breaks_; }
    /// The same by magnet or pliers: any large piece can be felt, whatever it is.
    [[nodiscard]] bool metalByTool() const { return moves_ || bends_ || breaks_; }
    /// Why what looks like metal of this size is no broken metal: "it crumbles in the pliers"; ""
    /// when nothing says so, or when another test shows that it is metal. Fines and specks below S2
    /// cannot be felt, whatever they are.
    [[nodiscard]] std::string contradiction(TradeSize size) const;
    /// A magnet leaves it and nothing else shows metal: no broken steel.
    [[nodiscard]] bool staysOffMagnet() const { return stays_ && !confirmMetal(); }
    [[nodiscard]] bool crumbles() const { return crumbles_; }

  private:
    bool felt_ = false, notFelt_ = false, moves_ = false, stays_ = false;
    bool bends_ = false, breaks_ = false, crumbles_ = false, wiped_ = false;
    Amount share_ = Amount::notSaid;
};

} // namespace swarfbook
