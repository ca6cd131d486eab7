// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <utility>

namespace swarfbook {

/// Settings of the elimination: models/bench-tests.json. Beside each stands its source, or "common
/// practice, no source".
struct BenchTests {
    struct Setting {
        double value = 0.0;
        std::string unit;
        std::string source;
    };
    std::map<std::string, Setting> settings;

    /// Minutes of bench time of a test, by its name in the file. Throws std::logic_error for a name
    /// that the file need not have.
    [[nodiscard]] double minutes(const std::string& name) const;
    /// Points of an element for each gear that is bad, and against it for each good one.
    [[nodiscard]] std::pair<double, double> weights() const {
        return {value("weight_bad"), value("weight_good")};
    }
    /// Electrical codes at once from which the supply they share is suspected.
    [[nodiscard]] int sharedFeedFrom() const { return static_cast<int>(value("shared_feed_from")); }

  private:
    [[nodiscard]] double value(const std::string& name) const;
};

/// Reads the settings. Throws ToolError naming the file and what is missing, without a source or
/// out of order. Checked: tests/elimination/bench_tests_test.cpp.
BenchTests loadBenchTests(const std::filesystem::path& file);

} // namespace swarfbook
