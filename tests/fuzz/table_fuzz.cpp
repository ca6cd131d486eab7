// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "fuzz/fuzz_target.h"
#include "unit/chart_check.h"
#include "unit/unit_table.h"

#include <nlohmann/json.hpp>

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>

using namespace swarfbook;

/// any text is a unit's table, whose chart is checked and read back the same
/// from its document, or is refused with a sentence.
FUZZ_TARGET(table_fuzz, data, size) {
    try {
        const UnitTable table = unitFromTable("Fuzz 6", std::string(data, data + size));
        static_cast<void>(inconsistencies(table.chart));
        static_cast<void>(remarks(table.chart));
        static_cast<void>(gearsWithCurrentRemoved(table.chart));
        const auto document = toJson(table.chart);
        if (toJson(chartFromJson(document)) != document)
            throw std::logic_error("a chart is not stored as it was read");
    } catch (const UsageError& wrong) {
        if (std::string_view(wrong.what()).empty())
            throw std::logic_error("a refusal without a sentence");
    }
    return 0;
}
