// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <dnnl.hpp>
#include <vector>

namespace swarfbook {

/// Memory that the tensors of a network reuse: one takes it over from another that has been read
/// for the last time, so that a run needs little memory.
class TensorMemory {
  public:
    explicit TensorMemory(const dnnl::engine& engine) : engine_(engine) {}

    /// Memory for such a tensor: the smallest block given back that is large enough, or a new one.
    dnnl::memory take(const dnnl::memory::desc& what) {
        const auto size = [](const dnnl::memory& one) { return one.get_desc().get_size(); };
        auto best = free_.end();
        for (auto one = free_.begin(); one != free_.end(); ++one)
            if (size(*one) >= what.get_size() && (best == free_.end() || size(*one) < size(*best)))
                best = one;
        if (best == free_.end()) {
            owned_.emplace_back(what, engine_);
            return owned_.back();
        }
        void* const place = best->get_data_handle();
        free_.erase(best);
        return {what, engine_, place};
    }

    /// @param tensor  from take(), read by nothing that comes later
    void giveBack(const dnnl::memory& tensor) {
        const auto same = [&](const dnnl::memory& one) {
            return one.get_data_handle() == tensor.get_data_handle();
        };
        free_.push_back(*std::find_if(owned_.begin(), owned_.end(), same)); // of its full size
    }

  private:
    dnnl::engine engine_;
    std::vector<dnnl::memory> owned_, free_;
};

} // namespace swarfbook
