// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "files/temporary_folder.h"
#include "web/certificate.h"

#include <catch2/catch.hpp>
#include <openssl/evp.h>
#include <openssl/x509v3.h>

#include <filesystem>

using namespace swarfbook::web;
using swarfbook::test::TemporaryFolder;
namespace fs = std::filesystem;

TEST_CASE("a certificate is made once, for its address, and kept private") {
    const TemporaryFolder folder;
    const Certificate first = certificateFor(folder / "pages", "192.168.1.20");
    CHECK(X509_check_ip_asc(first.certificate.get(), "192.168.1.20", 0) == 1);
    CHECK(X509_check_ip_asc(first.certificate.get(), "192.168.1.21", 0) != 1);
    CHECK(X509_verify(first.certificate.get(), first.key.get()) == 1);
    CHECK(X509_get_version(first.certificate.get()) == 2); // v3 (RFC 5280, 4.1.2.1)
    CHECK(EVP_PKEY_get_bits(first.key.get()) == 256);
    CHECK(first.fingerprint.size() == 32 * 3 - 1); // SHA-256 as "4F:09:..."
    CHECK(certificateFor(folder / "pages", "192.168.1.20").fingerprint == first.fingerprint);
    CHECK(certificateFor(folder / "pages", "192.168.1.21").fingerprint != first.fingerprint);
    for (const char* file : {"key.pem", "certificate.pem"}) {
        INFO(file);
        CHECK((fs::status(folder / "pages" / file).permissions() & fs::perms::mask) ==
              (fs::perms::owner_read | fs::perms::owner_write));
    }
}

// RFC 5280, 4.1.2.5: valid from a moment before to a moment after now.
TEST_CASE("a certificate is valid today and in a year") {
    const TemporaryFolder folder;
    const Certificate one = certificateFor(folder.path(), "10.0.0.5");
    std::time_t inAYear = std::time(nullptr) + 365L * 24 * 60 * 60;
    CHECK(X509_cmp_current_time(X509_get0_notBefore(one.certificate.get())) < 0);
    CHECK(X509_cmp_time(X509_get0_notAfter(one.certificate.get()), &inAYear) > 0);
}
