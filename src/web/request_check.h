// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

namespace swarfbook::web {

/// What a request says of itself before its body is read.
struct RequestHead {
    std::string method, path;
    std::string host;      ///< header Host, "" = none
    std::string origin;    ///< header Origin
    std::string fetchSite; ///< header Sec-Fetch-Site (W3C Fetch Metadata)
};

/// Where the pages are.
struct OwnAddress {
    std::string scheme; ///< "http" or "https"
    std::string host;   ///< "127.0.0.1:8420"
    [[nodiscard]] std::string origin() const { return scheme + "://" + host; }
};

/// Why a request is turned away, whoever sends it.
struct TurnedAway {
    int status = 400;
    std::string sentence;
};

/// Whether the request may go on to a page: it is meant for this very address (no other name that
/// was made to lead here), its path holds nothing but plain names, and what changes something comes
/// from a page of ours (Origin, RFC 6454). Nothing where it may.
/// Checked: tests/web/request_check_test.cpp.
std::optional<TurnedAway> checkRequest(const RequestHead& head, const OwnAddress& own);

/// The value of a cookie in the header Cookie (RFC 6265); "" if the header has none of that name.
std::string cookieIn(const std::string& header, const std::string& name);

} // namespace swarfbook::web
