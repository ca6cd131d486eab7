// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

/// What a browser asks for and what it is answered, as values: pages are functions from one to the
/// other and know nothing of connections.
namespace swarfbook::web {

struct Asked {
    std::string method; ///< "GET" or "POST"
    std::string path;   ///< "/visit/3"
    std::map<std::string, std::string> query, form;
    std::string body;   ///< of a POST, as it came
    std::string device; ///< the paired device that asks, its number

    /// The parts of the path: {"visit", "3"}.
    [[nodiscard]] std::vector<std::string> parts() const;
    /// What a form or, where it has no such field, the address says; "" where neither does.
    [[nodiscard]] std::string said(const std::string& name) const;
};

struct Answer {
    int status = 200;
    std::string type = "text/html; charset=utf-8";
    std::string body{};
    std::map<std::string, std::string> headers{};
};

/// The fields of a form as browsers send it, or of an address after "?" (WHATWG URL standard,
/// application/x-www-form-urlencoded). Of a name that is there twice the last counts.
/// Checked: tests/web/asked_test.cpp.
std::map<std::string, std::string> fieldsOf(std::string_view encoded);
/// The text as it stands in an address.
std::string encoded(std::string_view text);

/// The number that a part of a path is; UsageError for anything but digits.
std::int64_t numberOf(const std::string& part);

} // namespace swarfbook::web
