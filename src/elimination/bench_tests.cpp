// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/bench_tests.h"

#include "base/data_file.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array neededMinutes{
    "drive_a_gear",   "drive_a_shift",       "check_level",      "gauge_line_pressure",
    "check_supply",   "measure_circuit",     "command_solenoid", "exchange_solenoids",
    "bench_solenoid", "vacuum_test_bore",    "air_check",        "test_converter",
    "take_pan_off",   "take_valve_body_off", "refit_for_a_drive"};
constexpr std::array neededOthers{"weight_bad", "weight_good", "shared_feed_from"};

BenchTests read(const nlohmann::json& from) {
    if (from.at("format").get<std::string>() != "swarfbook bench tests 1")
        throw std::invalid_argument("its format is not \"swarfbook bench tests 1\"");
    BenchTests tests;
    for (const auto& entry : from.at("settings").items()) {
        const nlohmann::json& s = entry.value();
        tests.settings[entry.key()] = {s.at("value").get<double>(), s.at("unit").get<std::string>(),
                                       s.at("source").get<std::string>()};
        if (tests.settings[entry.key()].source.empty())
            throw std::invalid_argument(fmt::format("\"{}\" has no source beside it", entry.key()));
    }
    for (const char* name : neededMinutes)
        if (!(tests.minutes(name) > 0.0))
            throw std::invalid_argument(fmt::format("\"{}\" must take some minutes", name));
    for (const char* name : neededOthers)
        if (!tests.settings.contains(name))
            throw std::invalid_argument(fmt::format("\"{}\" is missing", name));
    if (!(tests.weights().second < tests.weights().first))
        throw std::invalid_argument("\"weight_bad\" must be above \"weight_good\"");
    return tests;
}

} // namespace

double BenchTests::value(const std::string& name) const {
    const auto found = settings.find(name);
    if (found == settings.end())
        throw std::logic_error(fmt::format("the setting \"{}\" is missing", name));
    return found->second.value;
}

double BenchTests::minutes(const std::string& name) const {
    return value(name);
}

BenchTests loadBenchTests(const std::filesystem::path& file) {
    return readDataFile("The settings of the bench tests", file, read);
}

} // namespace swarfbook
