// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/models_on_demand.h"

#include <future>
#include <mutex>
#include <utility>

namespace swarfbook {

struct ModelsOnDemand::Loading {
    std::filesystem::path folder;
    std::once_flag begun;
    std::shared_future<DebrisModels> models;
};

ModelsOnDemand::ModelsOnDemand(std::filesystem::path folder)
    : loading_(std::make_shared<Loading>()) {
    loading_->folder = std::move(folder);
}

void ModelsOnDemand::startLoading() const {
    std::call_once(loading_->begun, [this] {
        loading_->models =
            std::async(std::launch::async, DebrisModels::load, loading_->folder).share();
    });
}

const DebrisModels& ModelsOnDemand::get() const {
    startLoading();
    return loading_->models.get();
}

} // namespace swarfbook
