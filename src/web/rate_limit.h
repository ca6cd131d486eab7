// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <map>
#include <mutex>
#include <string>

namespace swarfbook::web {

/// How often somebody may ask: a store of requests that fills steadily, and each request takes one
/// (token bucket, RFC 2697 without colours). May be called from several threads.
/// Checked: tests/web/rate_limit_test.cpp.
class RateLimit {
  public:
    using Moment = std::chrono::steady_clock::time_point;
    /// @param atOnce     how many may come at once
    /// @param perSecond  how many may come for long
    RateLimit(double atOnce, double perSecond) : atOnce_(atOnce), perSecond_(perSecond) {}
    /// Whether `who` may ask now; each time counts.
    bool allows(const std::string& who, Moment now);

  private:
    struct Store {
        double left = 0.0;
        Moment since;
    };
    double atOnce_, perSecond_;
    std::mutex mutex_;
    std::map<std::string, Store> stores_;
};

/// Whose requests a request counts among: those of the paired device, as phones behind one router
/// have one address; of the address where the device is not paired.
/// @param device  its number, "" = not paired
/// Checked: tests/web/rate_limit_test.cpp.
std::string countedFor(const std::string& device, const std::string& address);

} // namespace swarfbook::web
