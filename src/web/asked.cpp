// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/asked.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace swarfbook::web {
namespace {

int hexDigit(char c) {
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

std::string decoded(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const int high = i + 2 < text.size() ? hexDigit(text[i + 1]) : -1;
        const int low = i + 2 < text.size() ? hexDigit(text[i + 2]) : -1;
        if (text[i] == '%' && high >= 0 && low >= 0) {
            plain += static_cast<char>(high * 16 + low);
            i += 2;
        } else {
            plain += text[i] == '+' ? ' ' : text[i];
        }
    }
    return plain;
}

} // namespace

std::vector<std::string> Asked::parts() const {
    std::vector<std::string> all;
    for (std::size_t at = 0; at < path.size();) {
        const std::size_t end = std::min(path.find('/', at), path.size());
        if (end > at)
            all.push_back(path.substr(at, end - at));
        at = end + 1;
    }
    return all;
}

std::string Asked::said(const std::string& name) const {
    if (const auto field = form.find(name); field != form.end())
        return field->second;
    const auto field = query.find(name);
    return field == query.end() ? std::string() : field->second;
}

std::map<std::string, std::string> fieldsOf(std::string_view encoded) {
    std::map<std::string, std::string> fields;
    while (!encoded.empty()) {
        const std::string_view one = encoded.substr(0, encoded.find('&'));
        encoded.remove_prefix(std::min(one.size() + 1, encoded.size()));
        const std::size_t equals = one.find('=');
        if (!one.empty())
            fields[decoded(one.substr(0, equals))] =
                equals == std::string_view::npos ? "" : decoded(one.substr(equals + 1));
    }
    return fields;
}

std::string encoded(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_';
        safe += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return safe;
}

std::int64_t numberOf(const std::string& part) {
    std::int64_t number = 0;
    const char* end = part.data() + part.size();
    const auto [stop, error] = std::from_chars(part.data(), end, number);
    if (error != std::errc() || stop != end || number < 1)
        throw UsageError("There is no such page.");
    return number;
}

} // namespace swarfbook::web
