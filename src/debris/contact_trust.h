// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/part_contact.h"
#include "network/dense_network.h"

#include <filesystem>

namespace swarfbook {

/// Whether two parts that touch are two pieces or one that a stray seam crosses: a small network of
/// what the maps show of them, fitted on photos that the piece network never learnt from. How it
/// was made and how well it does stands in models/contact-trust.md.
class ContactTrust {
  public:
    /// Reads models/contact-trust.json. Throws ToolError naming the file and what is wrong with it,
    /// features of another order or number included.
    /// Checked: tests/debris/part_contact_test.cpp.
    static ContactTrust load(const std::filesystem::path& file);

    /// Probability that they are two pieces.
    [[nodiscard]] double twoPieces(const ContactFeatures& features) const;
    /// Two parts that are less probably two pieces than this are one piece.
    [[nodiscard]] double threshold() const { return threshold_; }

  private:
    DenseNetwork two_; ///< log-odds
    double threshold_ = 0.5;
};

} // namespace swarfbook
