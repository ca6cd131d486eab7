// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/devices.h"

#include "base/errors.h"
#include "base/output_file.h"
#include "base/private_file.h"
#include "base/sha256.h"
#include "record/calendar.h"
#include "record/entry_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <openssl/rand.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <span>

namespace fs = std::filesystem;

namespace swarfbook::web {
namespace {

constexpr std::size_t mostCodes = 20;
constexpr std::size_t longestName = 60; ///< ours
constexpr const char* format = "swarfbook devices 1";

std::string digestOf(const std::string& text) {
    return sha256Hex(std::as_bytes(std::span(text)));
}

std::string notRead(const fs::path& file) {
    return fmt::format("The list of paired devices, {}, cannot be read. Remove the file and pair "
                       "the devices again.",
                       file.string());
}

} // namespace

fs::path pagesFolder(const fs::path& book) {
    return book / "pages";
}

std::string randomToken() {
    std::array<unsigned char, 32> bytes{};
    if (RAND_bytes(bytes.data(), static_cast<int>(bytes.size())) != 1)
        throw ToolError("The system gives no random numbers, so no device can be paired.");
    std::string text;
    for (const unsigned char byte : bytes)
        text += fmt::format("{:02x}", byte);
    return text;
}

Devices::Devices(fs::path folder) : file_(folder / "devices.json") {
    makePrivateFolder(folder);
    if (!fs::exists(file_))
        return;
    std::ifstream text(file_);
    const auto document = nlohmann::json::parse(text, nullptr, false);
    if (!document.is_object() || document.value("format", "") != format)
        throw ToolError(notRead(file_));
    try {
        last_ = document.at("last");
        for (const auto& one : document.at("devices"))
            devices_.push_back(
                {one.at("number"), one.at("name"), one.at("token_sha256"), one.at("paired_at")});
    } catch (const nlohmann::json::exception&) {
        throw ToolError(notRead(file_));
    }
}

void Devices::keep() const {
    nlohmann::ordered_json document{
        {"format", format}, {"last", last_}, {"devices", nlohmann::ordered_json::array()}};
    for (const PairedDevice& one : devices_)
        document["devices"].push_back({{"number", one.number},
                                       {"name", one.name},
                                       {"token_sha256", one.tokenSha256},
                                       {"paired_at", one.pairedAt}});
    const std::string text = document.dump(2) + "\n";
    writeFile(file_, std::as_bytes(std::span(text)), IfThere::replace);
}

std::string Devices::newCode() {
    const std::lock_guard lock(mutex_);
    std::string code = randomToken();
    codes_.push_back(digestOf(code));
    if (codes_.size() > mostCodes)
        codes_.erase(codes_.begin());
    return code;
}

bool Devices::isOffered(const std::string& code) const {
    const std::lock_guard lock(mutex_);
    return std::find(codes_.begin(), codes_.end(), digestOf(code)) != codes_.end();
}

std::optional<std::string> Devices::pair(const std::string& code, const std::string& name) {
    const std::string called = checkedLine("The name of the device", name, longestName);
    if (called.empty())
        throw UsageError("Give the device a name, such as \"phone at bench 2\".");
    const std::lock_guard lock(mutex_);
    const auto offered = std::find(codes_.begin(), codes_.end(), digestOf(code));
    if (offered == codes_.end())
        return std::nullopt;
    std::string token = randomToken();
    devices_.push_back({fmt::format("{}", last_ + 1), called, digestOf(token), nowUtc()});
    ++last_;
    try {
        keep();
    } catch (...) {
        devices_.pop_back();
        --last_;
        throw;
    }
    codes_.erase(offered);
    return token;
}

std::optional<PairedDevice> Devices::byToken(const std::string& token) const {
    const std::string digest = digestOf(token);
    const std::lock_guard lock(mutex_);
    for (const PairedDevice& one : devices_)
        if (one.tokenSha256 == digest)
            return one;
    return std::nullopt;
}

std::vector<PairedDevice> Devices::all() const {
    const std::lock_guard lock(mutex_);
    return devices_;
}

bool Devices::revoke(const std::string& number) {
    const std::lock_guard lock(mutex_);
    const std::vector<PairedDevice> before = devices_;
    std::erase_if(devices_, [&](const PairedDevice& one) { return one.number == number; });
    if (devices_.size() == before.size())
        return false;
    try {
        keep();
    } catch (...) {
        devices_ = before;
        throw;
    }
    return true;
}

} // namespace swarfbook::web
