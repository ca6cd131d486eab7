// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

namespace swarfbook {

/// A classifier's probabilities hold for the share of debris it was fitted to. In a photo of a
/// clean rough surface that share is far smaller, and what looks half like a piece is then hardly
/// ever one: the photo's own share is estimated by expectation maximisation and the probabilities
/// follow it (Saerens, Latinne and Decaestecker, Adjusting the outputs of a classifier to new a
/// priori probabilities, Neural Computation 14, 2002, 21-41, equations 2.4 and 2.9). As if twenty
/// more candidates held the learnt share, so that a few candidates say little; never above the
/// learnt share.
/// @param probabilities  of each candidate of one photo, 0 to 1
/// @param learntShare  of debris among what the classifier was fitted to, above 0 and below 1
/// @return the probabilities at the photo's share, in the same order.
/// Checked: tests/debris/debris_share_test.cpp (drawn scores of known share).
std::vector<double> atOwnShare(const std::vector<double>& probabilities, double learntShare);

} // namespace swarfbook
