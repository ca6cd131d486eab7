// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace swarfbook::test {

/// A fresh folder for one test alone, whatever runs beside it; removed when the test ends.
/// Checked: tests/architecture/house_test.cpp (no test names the temporary folder by itself).
class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "swarfbook-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr)
            throw std::runtime_error("no temporary folder can be made");
        path_ = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    std::filesystem::path operator/(std::string_view name) const { return path_ / name; }

  private:
    std::filesystem::path path_;
};

/// A file with this content in a fresh folder of its own.
class TemporaryFile {
  public:
    explicit TemporaryFile(std::string_view content, std::string_view name = "file") {
        path_ = folder_ / name;
        std::ofstream(path_, std::ios::binary) << content;
    }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    TemporaryFolder folder_;
    std::filesystem::path path_;
};

} // namespace swarfbook::test
