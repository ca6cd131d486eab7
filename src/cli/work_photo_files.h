// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

/// Photos of work as they are typed: --photo-before and --photo-after of `observe did`.
namespace swarfbook::cli {

/// Reads a photo's file. EvidenceRefused for what is missing or is no photo.
using ReadWorkPhoto = std::function<std::vector<std::byte>(const std::string& file)>;

/// The bytes of a photo's file, JPEG, PNG or HEIC, once it could be decoded: what cannot be shown
/// in a report is not kept. EvidenceRefused with the reason and what to do. Checked:
/// tests/cli/work_photos_test.cpp.
std::vector<std::byte> readWorkPhoto(const std::string& file);

} // namespace swarfbook::cli
