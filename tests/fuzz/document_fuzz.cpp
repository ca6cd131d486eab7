// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measurement_json.h"
#include "fuzz/fuzz_target.h"

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>

using namespace swarfbook;

namespace {

/// The content of a book is read back whole or refused; what was read can be written and read
/// again.
void tryMeasurement(const nlohmann::json& document) {
    try {
        const auto written = toJson(measurementFromJson(document));
        if (toJson(measurementFromJson(written)) != written)
            throw std::logic_error("a measurement is not written as it was read");
    } catch (const std::invalid_argument& wrong) {
        if (std::string_view(wrong.what()).empty())
            throw std::logic_error("a refusal without a reason");
    }
}

void tryMapping(const nlohmann::json& document) {
    try {
        static_cast<void>(toJson(mappingFromJson(document)));
    } catch (const std::invalid_argument&) {
        return;
    }
}

} // namespace

/// any bytes are a measurement document and a mapping, or are refused.
FUZZ_TARGET(document_fuzz, data, size) {
    const auto document = nlohmann::json::parse(data, data + size, nullptr, false);
    if (!document.is_discarded()) {
        tryMeasurement(document);
        tryMapping(document);
    }
    return 0;
}
