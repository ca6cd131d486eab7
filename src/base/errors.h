// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <stdexcept>

namespace swarfbook {

/// The world failed: disk, database, model file. The message says what the user can do. Exit 3.
class ToolError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// The user asked for something impossible: unknown option, negative mileage, a vehicle that is not
/// in the book. The message says what to type instead. Exit 2.
class UsageError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// The evidence does not allow what was asked (two visits that cannot be compared, a report on a
/// visit without photos). The message says why and what would help. Exit 1.
class EvidenceRefused : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

} // namespace swarfbook
