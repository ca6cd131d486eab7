// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>

struct evp_md_ctx_st; // of OpenSSL

namespace swarfbook {

/// SHA-256 of the bytes, as 64 lower-case hexadecimal digits (FIPS 180-4, by OpenSSL).
/// Checked: tests/base/sha256_test.cpp (the standard's own examples).
std::string sha256Hex(std::span<const std::byte> bytes);

/// The same of bytes that come piece by piece, for files that need not fit into memory.
class Sha256 {
  public:
    Sha256();
    void add(std::span<const std::byte> bytes);
    /// The digest of all that was added; call it once, at the end.
    std::string hex();

  private:
    std::unique_ptr<evp_md_ctx_st, void (*)(evp_md_ctx_st*)> state_;
};

} // namespace swarfbook
