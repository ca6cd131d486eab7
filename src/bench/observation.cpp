// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/observation.h"

namespace swarfbook {

Observation::Observation() = default;
Observation::Observation(const Observation&) = default;
Observation::Observation(Observation&&) noexcept = default;
Observation& Observation::operator=(const Observation&) = default;
Observation& Observation::operator=(Observation&&) noexcept = default;
Observation::~Observation() = default;

} // namespace swarfbook
