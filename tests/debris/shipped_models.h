// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/measure_debris.h"

namespace swarfbook::test {

/// The models as the project ships them, loaded once.
inline const DebrisModels& shippedModels() {
    static const DebrisModels models =
        DebrisModels::load(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models");
    return models;
}

} // namespace swarfbook::test
