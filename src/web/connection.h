// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "web/pages.h"
#include "web/rate_limit.h"
#include "web/request_check.h"
#include "web/slow_connections.h"

#include <functional>
#include <optional>
#include <string>

namespace httplib {
struct Request;
struct Response;
class Server;
} // namespace httplib

namespace swarfbook::web {

/// Between the connections and the pages: what is refused before a page sees it, and the headers
/// that every answer carries. Every refusal is a plain page and a line of the log.
/// Checked: tests/web/server_test.cpp.
class Connection {
  public:
    /// @param port  on which the connections are accepted
    Connection(Workshop& workshop, OwnAddress own, int port,
               std::function<void(const std::string&)> say)
        : workshop_(workshop), own_(std::move(own)), say_(std::move(say)), slow_(port) {}
    /// Sets the server up so that it answers by this, which must outlive it.
    void answerOn(httplib::Server& server);

  private:
    /// How much a request may bring and how slowly, and the headers of every answer.
    static void setLimits(httplib::Server& server);
    /// Why a request is refused before its body is read.
    std::optional<TurnedAway> refused(const httplib::Request& request);
    std::optional<TurnedAway> refusedBody(const httplib::Request& request) const;
    Answer answer(const httplib::Request& request, std::string body);
    [[nodiscard]] std::string deviceOf(const httplib::Request& request) const;
    void log(const httplib::Request& request, int status, const std::string& sentence) const;

    Workshop& workshop_;
    OwnAddress own_;
    std::function<void(const std::string&)> say_;
    RateLimit requests_{300, 30}; ///< of a paired device, or of an address; ours
    RateLimit pairings_{10, 0.2}; ///< of an address; ours
    SlowConnections slow_;
};

} // namespace swarfbook::web
