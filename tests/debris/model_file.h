// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

namespace swarfbook::test {

/// A model file that goes when the test ends.
class ModelFile {
  public:
    explicit ModelFile(const std::string& content) {
        std::string name =
            (std::filesystem::temp_directory_path() / "swarfbook-model-XXXXXX").string();
        const int handle = mkstemp(name.data());
        REQUIRE(handle >= 0);
        close(handle);
        path_ = name;
        std::ofstream(path_) << content;
    }
    ~ModelFile() {
        std::error_code ignored;
        std::filesystem::remove(path_, ignored);
    }
    ModelFile(const ModelFile&) = delete;
    ModelFile& operator=(const ModelFile&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

} // namespace swarfbook::test
