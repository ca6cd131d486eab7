// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/part_contact.h"
#include "network/dense_network.h"

#include <filesystem>

namespace swarfbook {

/// Decides whether two parts that touch are two pieces or one piece that a stray seam crosses. A
/// small network works on features of the maps; it was fitted on photos that the piece network
/// never learnt from. models/contact-trust.md says how it was made and how well it does.
class ContactTrust {
  public:
    /// Reads models/contact-trust.json. Throws ToolError naming the file and what is wrong with it,
    /// features of another order or number included.
    /// Checked: tests/debris/part_contact_test.cpp.
    static ContactTrust load(const std::filesystem::path& file);

    /// Probability that they are two pieces.
    [[nodiscard]] double twoPieces(const ContactFeatures& features) const;
    /// Below this probability of being two pieces, two parts are one piece.
    [[nodiscard]] double threshold() const { return threshold_; }

  private:
    DenseNetwork two_; ///< log-odds
    double threshold_ = 0.5;
};

} // namespace swarfbook
