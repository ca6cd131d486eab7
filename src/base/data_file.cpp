// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/data_file.h"

#include "base/regular_file.h"

#include <fmt/format.h>

#include <fstream>
#include <stdexcept>

namespace swarfbook {

namespace {

constexpr std::string_view remedy =
    "Install swarfbook again, or point SWARFBOOK_DATA at its data folder.";

} // namespace

nlohmann::json parsedDataFile(std::string_view what, const std::filesystem::path& file) {
    if (!whyNotReadable(file).empty())
        throw ToolError(fmt::format("{} {} cannot be read. {}", what, file.string(), remedy));
    std::ifstream in(file);
    if (!in)
        throw ToolError(fmt::format("{} {} cannot be read. {}", what, file.string(), remedy));
    try {
        return nlohmann::json::parse(in);
    } catch (const std::exception& wrong) {
        throw dataFileDamaged(what, file, wrong.what());
    }
}

ToolError dataFileDamaged(std::string_view what, const std::filesystem::path& file,
                          std::string_view wrong) {
    return ToolError(
        fmt::format("{} {} cannot be used: {}. {}", what, file.string(), wrong, remedy));
}

void checkFormat(const nlohmann::json& document, std::string_view format) {
    if (document.at("format") != format)
        throw std::runtime_error("it is of another format");
}

} // namespace swarfbook
