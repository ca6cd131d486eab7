// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook::web {

/// A phone or computer that may use the pages.
struct PairedDevice {
    std::string number; ///< "1", "2", ...: never given twice
    std::string name;   ///< as its user calls it
    std::string tokenSha256;
    std::string pairedAt; ///< UTC
};

/// The folder of the book in which the pages keep their own files: the key of their
/// certificate, the paired devices, photos half received. Private to its owner (mode 700); a backup
/// leaves it out, so that no copy of a book lets anybody in, and no entry names it.
std::filesystem::path pagesFolder(const std::filesystem::path& book);

/// The devices that may use the pages, in devices.json of the pages' folder (mode 600).
///
/// A device proves itself by a token of 256 random bits, of which the file holds the SHA-256 alone.
/// A code pairs one device: it is used up by that, and forgotten when the program ends. Members may
/// be called from several threads. ToolError where the file cannot be read or written.
/// Checked: tests/web/devices_test.cpp.
class Devices {
  public:
    /// @param folder  of the pages; it is made if it is missing.
    explicit Devices(std::filesystem::path folder);

    /// A new code that pairs one device. At most 20 are kept, the newest.
    std::string newCode();
    /// Whether the code would pair a device now.
    [[nodiscard]] bool isOffered(const std::string& code) const;
    /// Pairs a device and uses the code up. UsageError for a name that is empty or too long.
    /// @return its token; nothing for a code that is not offered (any more).
    std::optional<std::string> pair(const std::string& code, const std::string& name);
    /// The device that the token proves; nothing for any other token.
    [[nodiscard]] std::optional<PairedDevice> byToken(const std::string& token) const;
    [[nodiscard]] std::vector<PairedDevice> all() const;
    /// Lets the device in no more. @return whether there was one of that number.
    bool revoke(const std::string& number);

  private:
    void keep() const;

    std::filesystem::path file_;
    mutable std::mutex mutex_;
    std::vector<PairedDevice> devices_;
    std::vector<std::string> codes_; ///< SHA-256 of each
    long last_ = 0;                  ///< number given
};

/// 256 random bits of the system, as 64 hexadecimal digits.
std::string randomToken();

} // namespace swarfbook::web
