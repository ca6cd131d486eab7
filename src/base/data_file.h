// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"

#include <nlohmann/json.hpp>

#include <exception>
#include <filesystem>
#include <string_view>

namespace swarfbook {

/// One of the program's own data files, whatever it holds. Throws as readDataFile.
nlohmann::json parsedDataFile(std::string_view what, const std::filesystem::path& file);

/// Thrown when such a file has wrong content.
ToolError dataFileDamaged(std::string_view what, const std::filesystem::path& file,
                          std::string_view wrong);

/// Reads one of the program's own data files (models, card geometry), JSON.
/// @param what  begins the sentence: "The detection model"
/// @param read  turns the document into a value; throws if the document is wrong
/// Throws ToolError, which says what to do, if the file is missing, is not JSON or is wrong.
/// Checked: tests/base/data_file_test.cpp.
template <typename Read>
auto readDataFile(std::string_view what, const std::filesystem::path& file, Read read) {
    const nlohmann::json document = parsedDataFile(what, file);
    try {
        return read(document);
    } catch (const std::exception& wrong) {
        throw dataFileDamaged(what, file, wrong.what());
    }
}

/// Throws std::runtime_error if the document's "format" is not this one.
void checkFormat(const nlohmann::json& document, std::string_view format);

} // namespace swarfbook
