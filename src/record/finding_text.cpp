// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/finding_text.h"

#include "assess/measurement_json.h"
#include "base/errors.h"
#include "record/entry_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace swarfbook {

FindingText findingText(const Measurement& measurement) {
    Measurement stored = measurement;
    stored.photo.file = readableText(measurement.photo.file);
    stored.photo.taken = readableText(measurement.photo.taken);
    const std::string mapping = stored.card ? toJson(stored.card->mapping).dump() : std::string();
    return {toJson(stored).dump(), mapping};
}

Measurement findingFromText(const FindingText& text, const std::string& where) {
    try {
        Measurement measurement = measurementFromJson(nlohmann::json::parse(text.measurement));
        if (measurement.card)
            measurement.card->mapping = mappingFromJson(nlohmann::json::parse(text.mapping));
        return measurement;
    } catch (const std::exception& wrong) {
        throw ToolError(fmt::format("A finding in {} cannot be read ({}). Measure the visit again, "
                                    "or go back to your last backup.",
                                    where, wrong.what()));
    }
}

} // namespace swarfbook
