// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/measure_debris.h"

#include <filesystem>
#include <memory>

namespace swarfbook {

/// The models of one folder, loaded when they are first asked for and once for all copies of this.
/// Safe to use from several threads. Checked: tests/assess/models_on_demand_test.cpp.
class ModelsOnDemand {
  public:
    /// @param folder  of pieces.onnx, contact-trust.json, piece-trust.json and detection.json; not
    /// touched yet.
    explicit ModelsOnDemand(std::filesystem::path folder);

    /// Begins to load them on a thread of its own, if nobody has yet; what is thrown there get()
    /// throws. Where memory is short it does nothing: get() then loads them when the photo is
    /// decoded, so that each of the two knows what the other left.
    void startLoading() const;

    /// Waits for them. Throws ToolError where one is missing or damaged.
    [[nodiscard]] const DebrisModels& get() const;

  private:
    struct Loading;
    std::shared_ptr<Loading> loading_;
};

} // namespace swarfbook
