// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <span>
#include <string>

namespace swarfbook {

/// SHA-256 of the bytes, as 64 lower-case hexadecimal digits (FIPS 180-4, by OpenSSL).
/// Checked: tests/base/sha256_test.cpp (the standard's own examples).
std::string sha256Hex(std::span<const std::byte> bytes);

} // namespace swarfbook
