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

/// To be thrown where such a file holds something wrong.
ToolError dataFileDamaged(std::string_view what, const std::filesystem::path& file,
                          std::string_view wrong);

/// Reads one of the program's own data files (models, card geometry), JSON.
/// @param what  begins the sentence: "The detection model"
/// @param read  takes the document and gives what it stands for; throws where it is wrong
/// Throws ToolError with what to do where the file is missing, no JSON or wrong.
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

/// Throws std::runtime_error where the document's "format" is another one.
void checkFormat(const nlohmann::json& document, std::string_view format);

} // namespace swarfbook
