// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include <opencv2/core.hpp>

#include <algorithm>
#include <cstddef>
#include <mutex>
#include <sanitizer/asan_interface.h>
#include <vector>

// Linked into each program of a build with sanitizers that works on pictures. The address sanitizer
// asks the system anew for every picture and hands it back at once, a quarter of the tests' time.
// Here the memory of pictures that are no longer used waits for the next ones. Until then it is
// poisoned, as is whatever a picture does not fill, so that wrong reading and writing is found as
// before.

namespace {

constexpr std::size_t smallest = std::size_t{1} << 17; // what is smaller the sanitizer keeps itself
constexpr std::size_t mostKept = std::size_t{384} << 20;

struct Block {
    void* memory;
    std::size_t size;
};

class Kept {
  public:
    /// A block for a picture of so many bytes: the smallest that was kept and holds it without
    /// leaving more than half unused, else a new one. What the picture does not fill is poisoned.
    Block take(std::size_t bytes) {
        const std::lock_guard lock(m_mutex);
        auto best = m_blocks.end();
        for (auto block = m_blocks.begin(); block != m_blocks.end(); ++block)
            if (block->size >= bytes && block->size / 2 <= bytes &&
                (best == m_blocks.end() || block->size < best->size))
                best = block;
        if (best == m_blocks.end())
            return {cv::fastMalloc(bytes), bytes};
        const Block taken = *best;
        m_bytes -= taken.size;
        m_blocks.erase(best);
        ASAN_UNPOISON_MEMORY_REGION(taken.memory, bytes);
        return taken;
    }

    void giveBack(const Block& block) {
        const std::lock_guard lock(m_mutex);
        ASAN_POISON_MEMORY_REGION(block.memory, block.size);
        m_blocks.push_back(block);
        m_bytes += block.size;
        while (m_bytes > mostKept) {
            const Block oldest = m_blocks.front();
            m_blocks.erase(m_blocks.begin());
            m_bytes -= oldest.size;
            ASAN_UNPOISON_MEMORY_REGION(oldest.memory, oldest.size);
            cv::fastFree(oldest.memory);
        }
    }

  private:
    std::mutex m_mutex;
    std::vector<Block> m_blocks; // the oldest first
    std::size_t m_bytes = 0;
};

Kept& kept() {
    static Kept& all = *new Kept; // pictures may outlive every other object
    return all;
}

class PictureAllocator : public cv::MatAllocator {
  public:
    cv::UMatData* allocate(int dimensions, const int* sizes, int type, void* data,
                           std::size_t* step, cv::AccessFlag flags,
                           cv::UMatUsageFlags usage) const override {
        std::size_t bytes = CV_ELEM_SIZE(type);
        for (int i = 0; i < dimensions; ++i)
            bytes *= static_cast<std::size_t>(sizes[i]);
        if (data != nullptr || bytes < smallest)
            return cv::Mat::getStdAllocator()->allocate(dimensions, sizes, type, data, step, flags,
                                                        usage);
        std::size_t row = CV_ELEM_SIZE(type);
        for (int i = dimensions - 1; i >= 0; --i) {
            if (step != nullptr)
                step[i] = row;
            row *= static_cast<std::size_t>(sizes[i]);
        }
        auto* const picture = new cv::UMatData(this);
        const Block block = kept().take(bytes);
        picture->data = picture->origdata = static_cast<uchar*>(block.memory);
        picture->size = bytes;
        picture->handle =
            reinterpret_cast<void*>(block.size); // of OpenCV's own only graphics cards use it
        return picture;
    }

    bool allocate(cv::UMatData* picture, cv::AccessFlag, cv::UMatUsageFlags) const override {
        return picture != nullptr;
    }

    void deallocate(cv::UMatData* picture) const override {
        if (picture == nullptr)
            return;
        kept().giveBack({picture->origdata, reinterpret_cast<std::size_t>(picture->handle)});
        delete picture;
    }
};

[[maybe_unused]] const bool installed = [] {
    cv::Mat::setDefaultAllocator(new PictureAllocator);
    return true;
}();

} // namespace
