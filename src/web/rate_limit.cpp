// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/rate_limit.h"

#include <algorithm>

namespace swarfbook::web {

bool RateLimit::allows(const std::string& who, Moment now) {
    constexpr std::size_t mostKnown = 1000; // those that are full again are forgotten
    const auto filled = [&](const Store& store) {
        const double seconds = std::chrono::duration<double>(now - store.since).count();
        return std::min(atOnce_, store.left + seconds * perSecond_);
    };
    const std::lock_guard lock(mutex_);
    if (stores_.size() > mostKnown)
        std::erase_if(stores_, [&](const auto& one) { return filled(one.second) >= atOnce_; });
    Store& store = stores_.try_emplace(who, Store{atOnce_, now}).first->second;
    store = {filled(store), now};
    if (store.left < 1.0)
        return false;
    store.left -= 1.0;
    return true;
}

std::string countedFor(const std::string& device, const std::string& address) {
    return device.empty() ? address : "device " + device;
}

} // namespace swarfbook::web
