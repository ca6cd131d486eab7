// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace swarfbook {

std::string sha256Hex(std::span<const std::byte> bytes) {
    std::array<unsigned char, 32> digest{};
    unsigned int length = 0;
    if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
        throw std::runtime_error("SHA-256 is not available in this OpenSSL");
    std::string hex;
    for (const unsigned char b : digest)
        hex += fmt::format("{:02x}", b);
    return hex;
}

} // namespace swarfbook
