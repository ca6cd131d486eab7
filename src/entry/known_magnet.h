// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/magnet_finding.h"
#include "particles/particle.h"
#include "record/book.h"

#include <cstdint>
#include <optional>
#include <string>

namespace swarfbook {

/// Form and size of the magnets of a visit, as last typed in (observe magnets); nothing of what was
/// not said. Checked: tests/cli/magnet_test.cpp.
KnownMagnet knownMagnetOf(const Book& book, std::int64_t visit);

/// Form and size as typed beside a photo: "ring", "37mm". UsageError if they cannot be or the place
/// is not the magnet. Checked: tests/cli/magnet_test.cpp.
KnownMagnet knownMagnetTyped(const std::optional<std::string>& form,
                             const std::optional<std::string>& size, Place place);

} // namespace swarfbook
