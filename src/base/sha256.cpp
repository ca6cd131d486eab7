// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

void require(int done) {
    if (done != 1)
        throw std::runtime_error("SHA-256 is not available in this OpenSSL");
}

} // namespace

Sha256::Sha256() : state_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
    require(EVP_DigestInit_ex(state_.get(), EVP_sha256(), nullptr));
}

void Sha256::add(std::span<const std::byte> bytes) {
    require(EVP_DigestUpdate(state_.get(), bytes.data(), bytes.size()));
}

std::string Sha256::hex() {
    std::array<unsigned char, 32> digest{};
    require(EVP_DigestFinal_ex(state_.get(), digest.data(), nullptr));
    std::string hex;
    for (const unsigned char b : digest)
        hex += fmt::format("{:02x}", b);
    return hex;
}

std::string sha256Hex(std::span<const std::byte> bytes) {
    Sha256 digest;
    digest.add(bytes);
    return digest.hex();
}

} // namespace swarfbook
