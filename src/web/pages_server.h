// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

namespace swarfbook::web {

struct ServerOptions {
    std::filesystem::path book; ///< its folder; the book is there
    bool onNetwork = false;     ///< else on this machine alone (127.0.0.1), without TLS
    std::string address{}; ///< on the network: which of this machine's; "" = the first private one
    int port = 8420;       ///< 0 = any that is free
    /// Gets, from several threads, what was refused and what failed, a sentence each.
    std::function<void(const std::string&)> say{};
};

/// The pages of one book, for devices that are paired. On the network every connection is TLS 1.2
/// or newer with a certificate of its own (certificate.h).
/// Checked: tests/web/server_test.cpp.
class PagesServer {
  public:
    /// Takes the port. ToolError where it is taken, UsageError where this machine has no such
    /// address.
    explicit PagesServer(ServerOptions options);
    ~PagesServer();
    PagesServer(const PagesServer&) = delete;
    PagesServer& operator=(const PagesServer&) = delete;

    /// "http://127.0.0.1:8420".
    [[nodiscard]] const std::string& origin() const;
    /// Of the certificate; "" on this machine alone.
    [[nodiscard]] const std::string& fingerprint() const;
    /// A new address that pairs one device.
    [[nodiscard]] std::string newPairing();

    /// Answers until stop() is called. Call it once.
    void run();
    /// May be called from another thread.
    void stop();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

} // namespace swarfbook::web
