// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/certificate.h"

#include "base/errors.h"
#include "base/output_file.h"
#include "base/private_file.h"

#include <fmt/format.h>
#include <openssl/bn.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>

#include <array>
#include <fstream>
#include <span>
#include <sstream>
#include <string_view>

namespace fs = std::filesystem;

namespace swarfbook::web {
namespace {

constexpr long day = 24L * 60 * 60;
constexpr long lasts = 825 * day; ///< the longest that phones take (common practice, no source)

using Memory = std::unique_ptr<BIO, int (*)(BIO*)>;

[[noreturn]] void failed() {
    throw ToolError("The certificate for the workshop's network could not be made.");
}

template <class T> T* made(T* thing) {
    if (thing == nullptr)
        failed();
    return thing;
}

void require(int result) {
    if (result != 1)
        failed();
}

std::shared_ptr<EVP_PKEY> newKey() {
    return {made(EVP_EC_gen("P-256")), EVP_PKEY_free};
}

void addExtension(X509* to, int kind, const std::string& value) {
    const std::unique_ptr<X509_EXTENSION, void (*)(X509_EXTENSION*)> extension(
        made(X509V3_EXT_conf_nid(nullptr, nullptr, kind, value.c_str())), X509_EXTENSION_free);
    require(X509_add_ext(to, extension.get(), -1));
}

void setSerial(X509* of) {
    std::array<unsigned char, 16> bytes{};
    require(RAND_bytes(bytes.data(), static_cast<int>(bytes.size())));
    bytes[0] = static_cast<unsigned char>((bytes[0] & 0x7fU) | 1U); // positive, RFC 5280 4.1.2.2
    const std::unique_ptr<BIGNUM, void (*)(BIGNUM*)> number(
        made(BN_bin2bn(bytes.data(), static_cast<int>(bytes.size()), nullptr)), BN_free);
    made(BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(of)));
}

std::shared_ptr<X509> newCertificate(EVP_PKEY* key, const std::string& address) {
    std::shared_ptr<X509> one(made(X509_new()), X509_free);
    require(X509_set_version(one.get(), 2)); // v3
    setSerial(one.get());
    made(X509_gmtime_adj(X509_getm_notBefore(one.get()), -day));
    made(X509_gmtime_adj(X509_getm_notAfter(one.get()), lasts - day));
    require(X509_set_pubkey(one.get(), key));
    X509_NAME* name = X509_get_subject_name(one.get());
    const auto* words = reinterpret_cast<const unsigned char*>("swarfbook");
    require(X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_ASC, words, -1, -1, 0));
    require(X509_set_issuer_name(one.get(), name));
    addExtension(one.get(), NID_basic_constraints, "critical,CA:FALSE");
    addExtension(one.get(), NID_key_usage, "critical,digitalSignature");
    addExtension(one.get(), NID_ext_key_usage, "serverAuth");
    addExtension(one.get(), NID_subject_alt_name, "IP:" + address);
    if (X509_sign(one.get(), key, EVP_sha256()) == 0)
        failed();
    return one;
}

std::string textIn(BIO* memory) {
    char* text = nullptr;
    const long length = BIO_get_mem_data(memory, &text);
    return {text, static_cast<std::size_t>(length)};
}

std::string fingerprintOf(const X509* certificate) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    require(X509_digest(certificate, EVP_sha256(), digest.data(), &length));
    std::string text;
    for (unsigned int i = 0; i < length; ++i)
        text += fmt::format("{}{:02X}", i == 0 ? "" : ":", digest[i]);
    return text;
}

void keepIn(const fs::path& file, const std::string& text) {
    writeFile(file, std::as_bytes(std::span(text)), IfThere::replace);
}

std::string contentOf(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// Nothing if no certificate may be used for this address.
std::shared_ptr<X509> usable(const std::string& pem, EVP_PKEY* key, const std::string& address) {
    const Memory memory(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), BIO_free);
    std::shared_ptr<X509> one(PEM_read_bio_X509(memory.get(), nullptr, nullptr, nullptr),
                              X509_free);
    std::time_t inAWeek = std::time(nullptr) + 7 * day;
    if (!one || X509_check_private_key(one.get(), key) != 1 ||
        X509_check_ip_asc(one.get(), address.c_str(), 0) != 1 ||
        X509_cmp_time(X509_get0_notAfter(one.get()), &inAWeek) <= 0)
        return nullptr;
    return one;
}

} // namespace

Certificate certificateFor(const fs::path& folder, const std::string& address) {
    makePrivateFolder(folder);
    const std::string keyPem = contentOf(folder / "key.pem");
    const Memory kept(BIO_new_mem_buf(keyPem.data(), static_cast<int>(keyPem.size())), BIO_free);
    std::shared_ptr<EVP_PKEY> key(PEM_read_bio_PrivateKey(kept.get(), nullptr, nullptr, nullptr),
                                  EVP_PKEY_free);
    std::shared_ptr<X509> certificate =
        key ? usable(contentOf(folder / "certificate.pem"), key.get(), address) : nullptr;
    if (!certificate) {
        key = newKey();
        certificate = newCertificate(key.get(), address);
        const Memory keyText(made(BIO_new(BIO_s_mem())), BIO_free);
        require(PEM_write_bio_PrivateKey(keyText.get(), key.get(), nullptr, nullptr, 0, nullptr,
                                         nullptr));
        const Memory text(made(BIO_new(BIO_s_mem())), BIO_free);
        require(PEM_write_bio_X509(text.get(), certificate.get()));
        keepIn(folder / "key.pem", textIn(keyText.get()));
        keepIn(folder / "certificate.pem", textIn(text.get()));
    }
    return {key, certificate, fingerprintOf(certificate.get())};
}

} // namespace swarfbook::web
