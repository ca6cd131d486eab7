// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <memory>
#include <string>

struct evp_pkey_st; // of OpenSSL
struct x509_st;

namespace swarfbook::web {

/// A certificate that this program signs itself, with its key.
struct Certificate {
    std::shared_ptr<evp_pkey_st> key;
    std::shared_ptr<x509_st> certificate;
    std::string fingerprint; ///< SHA-256 of it (DER), "4F:09:...", as browsers show it
};

/// The certificate of the pages of a book, for this address: the one kept in the folder, else a new
/// one (ECDSA on P-256, FIPS 186-4; X.509 v3, RFC 5280), kept there in certificate.pem and key.pem,
/// both mode 600. One that is for another address, or that ends within a week, is made anew.
///
/// A phone cannot know who signed it and warns once; whoever compares the fingerprint knows that
/// nobody stands between. ToolError where the files cannot be read or written.
/// Checked: tests/web/certificate_test.cpp.
Certificate certificateFor(const std::filesystem::path& folder, const std::string& address);

} // namespace swarfbook::web
