// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/picture_bytes.h"

#include "base/errors.h"

#include <fmt/format.h>
#include <opencv2/imgcodecs.hpp>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstring>
#include <sys/stat.h>
#include <unistd.h>

namespace swarfbook {

namespace {

std::vector<unsigned char> encoded(const cv::Mat& bgr, const char* ending,
                                   const std::vector<int>& settings) {
    std::vector<unsigned char> bytes;
    if (!cv::imencode(ending, bgr, bytes, settings))
        throw ToolError("A picture could not be encoded. Is it larger than 65,500 pixels?");
    return bytes;
}

std::string lowerEnding(const std::filesystem::path& file) {
    std::string ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return ending;
}

/// A file under a name of its own, removed again unless it was renamed to its goal.
class NewFile {
  public:
    explicit NewFile(const std::filesystem::path& goal) : goal_(goal) {
        name_ = goal.string() + ".XXXXXX";
        handle_ = mkstemp(name_.data());
        if (handle_ < 0)
            fail();
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    ~NewFile() {
        if (handle_ >= 0)
            close(handle_);
        if (!done_)
            unlink(name_.c_str());
    }
    void write(const std::vector<unsigned char>& bytes) {
        std::size_t written = 0;
        while (written < bytes.size()) {
            const ssize_t n = ::write(handle_, bytes.data() + written, bytes.size() - written);
            if (n < 0 && errno == EINTR)
                continue;
            if (n < 0)
                fail();
            written += static_cast<std::size_t>(n);
        }
    }
    void moveToGoal() {
        // mkstemp makes files private; a report is to have what any new file gets.
        const mode_t mask = umask(0);
        umask(mask);
        if (fchmod(handle_, 0666 & ~mask) != 0 || fsync(handle_) != 0)
            fail();
        const int handle = handle_;
        handle_ = -1;
        if (close(handle) != 0 || rename(name_.c_str(), goal_.c_str()) != 0)
            fail();
        done_ = true;
    }

  private:
    [[noreturn]] void fail() const {
        throw ToolError(fmt::format("{} could not be written: {}. Choose another folder or make "
                                    "room, then try again.",
                                    goal_.string(), std::strerror(errno)));
    }
    std::filesystem::path goal_;
    std::string name_;
    int handle_ = -1;
    bool done_ = false;
};

} // namespace

std::vector<unsigned char> jpegBytes(const cv::Mat& bgr, int quality) {
    return encoded(bgr, ".jpg", {cv::IMWRITE_JPEG_QUALITY, quality});
}

std::vector<unsigned char> pngBytes(const cv::Mat& bgr) {
    return encoded(bgr, ".png", {cv::IMWRITE_PNG_COMPRESSION, 6});
}

void requirePictureName(const std::filesystem::path& file) {
    const std::string ending = lowerEnding(file);
    if (ending != ".jpg" && ending != ".jpeg" && ending != ".png")
        throw UsageError(fmt::format(
            "\"{}\" names no picture format. End the name in .jpg or .png.", file.string()));
}

void writePicture(const std::filesystem::path& file, const cv::Mat& bgr) {
    requirePictureName(file);
    writeWhole(file, lowerEnding(file) == ".png" ? pngBytes(bgr) : jpegBytes(bgr));
}

void writeWhole(const std::filesystem::path& file, const std::vector<unsigned char>& bytes) {
    std::error_code ignored;
    if (std::filesystem::is_directory(file, ignored))
        throw UsageError(
            fmt::format("{} is a folder. Give the name of a file to write.", file.string()));
    NewFile target(file);
    target.write(bytes);
    target.moveToGoal();
}

} // namespace swarfbook
