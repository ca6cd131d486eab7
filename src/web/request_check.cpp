// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/request_check.h"

#include <algorithm>
#include <string_view>

namespace swarfbook::web {
namespace {

bool isPlainPath(std::string_view path) {
    const auto plain = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '/' || c == '-' || c == '.' || c == '_';
    };
    return path.starts_with('/') && path.size() <= 200 &&
           std::all_of(path.begin(), path.end(), plain) &&
           path.find("..") == std::string_view::npos && path.find("/.") == std::string_view::npos &&
           path.find("//") == std::string_view::npos;
}

/// On the machine itself both names lead here.
bool isOwnHost(const std::string& host, const OwnAddress& own) {
    if (host == own.host)
        return true;
    constexpr std::string_view loopback = "127.0.0.1:";
    return own.host.starts_with(loopback) &&
           host == "localhost:" + own.host.substr(loopback.size());
}

} // namespace

std::optional<TurnedAway> checkRequest(const RequestHead& head, const OwnAddress& own) {
    if (!isOwnHost(head.host, own))
        return TurnedAway{421, "The address that was asked for is not that of these pages."};
    if (head.method != "GET" && head.method != "HEAD" && head.method != "POST")
        return TurnedAway{405, "This page cannot be used in that way."};
    if (!isPlainPath(head.path))
        return TurnedAway{404, "There is no such page."};
    if (head.method != "POST")
        return std::nullopt;
    const bool fromUs = head.origin == own.scheme + "://" + head.host;
    const bool sameSite = head.fetchSite.empty() || head.fetchSite == "same-origin";
    if (!fromUs || !sameSite)
        return TurnedAway{403, "This came from a page of another site, so nothing was done."};
    return std::nullopt;
}

std::string cookieIn(const std::string& header, const std::string& name) {
    for (std::size_t at = 0; at < header.size();) {
        const std::size_t end = std::min(header.find(';', at), header.size());
        std::string_view one = std::string_view(header).substr(at, end - at);
        while (one.starts_with(' '))
            one.remove_prefix(1);
        if (one.starts_with(name) && one.substr(name.size()).starts_with('='))
            return std::string(one.substr(name.size() + 1));
        at = end + 1;
    }
    return {};
}

} // namespace swarfbook::web
