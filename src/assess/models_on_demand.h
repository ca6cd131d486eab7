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

    /// Begins to load them on a thread of its own if that has not begun yet; get() throws what is
    /// thrown there. If memory is short, does nothing: get() then loads them after the photo is
    /// decoded, so that each knows how much memory the other left.
    void startLoading() const;

    /// Waits for them. Throws ToolError if one is missing or damaged.
    [[nodiscard]] const DebrisModels& get() const;

  private:
    struct Loading;
    std::shared_ptr<Loading> loading_;
};

} // namespace swarfbook
