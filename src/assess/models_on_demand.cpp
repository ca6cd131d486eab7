// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/models_on_demand.h"

#include "base/memory.h"

#include <future>
#include <mutex>
#include <utility>

namespace swarfbook {
namespace {

/// Loading the models and decoding a photo of 48 megapixels together take 200 MiB (our own
/// experiment); with this much left both may run at once.
constexpr std::size_t roomForBothMiB = 768;

} // namespace

struct ModelsOnDemand::Loading {
    std::filesystem::path folder;
    std::once_flag begun;
    std::shared_future<DebrisModels> models;

    void begin(std::launch how) {
        std::call_once(begun,
                       [&] { models = std::async(how, DebrisModels::load, folder).share(); });
    }
};

ModelsOnDemand::ModelsOnDemand(std::filesystem::path folder)
    : loading_(std::make_shared<Loading>()) {
    loading_->folder = std::move(folder);
}

void ModelsOnDemand::startLoading() const {
    if (memoryLeft(roomForBothMiB))
        loading_->begin(std::launch::async);
}

const DebrisModels& ModelsOnDemand::get() const {
    loading_->begin(std::launch::deferred); // on the thread that waits
    return loading_->models.get();
}

} // namespace swarfbook
