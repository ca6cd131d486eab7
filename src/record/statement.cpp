// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/database.h"

#include <nlohmann/json.hpp>
#include <sqlite3.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace swarfbook {
namespace {

std::string asUtf8(std::string text) {
    const auto isAscii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
    if (std::all_of(text.begin(), text.end(), isAscii))
        return text;
    const auto replace = nlohmann::json::error_handler_t::replace;
    return nlohmann::json::parse(nlohmann::json(std::move(text)).dump(-1, ' ', false, replace))
        .get<std::string>();
}

} // namespace

Statement::Statement(sqlite3* database, std::string_view sql, std::string where)
    : database_(database), where_(std::move(where)) {
    checked(sqlite3_prepare_v2(database_, sql.data(), static_cast<int>(sql.size()), &statement_,
                               nullptr));
}

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_), statement_(std::exchange(other.statement_, nullptr)),
      where_(std::move(other.where_)), bound_(other.bound_) {}

Statement::~Statement() {
    sqlite3_finalize(statement_);
}

bool Statement::step() {
    const int code = sqlite3_step(statement_);
    if (code == SQLITE_ROW)
        return true;
    if (code != SQLITE_DONE)
        throwDatabaseError(database_, code, where_);
    return false;
}

void Statement::run() {
    if (bound_ != sqlite3_bind_parameter_count(statement_))
        throw std::logic_error("a statement's parameters are not all bound");
    while (step()) {
    }
}

std::int64_t Statement::integer(int column) const {
    return sqlite3_column_int64(statement_, column);
}

std::string Statement::text(int column) const {
    const unsigned char* start = sqlite3_column_text(statement_, column);
    if (start == nullptr)
        return {};
    const auto length = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
    return asUtf8({reinterpret_cast<const char*>(start), length});
}

std::optional<std::int64_t> Statement::maybeInteger(int column) const {
    if (sqlite3_column_type(statement_, column) == SQLITE_NULL)
        return std::nullopt;
    return integer(column);
}

std::optional<double> Statement::real(int column) const {
    if (sqlite3_column_type(statement_, column) == SQLITE_NULL)
        return std::nullopt;
    return sqlite3_column_double(statement_, column);
}

void Statement::bindNext(std::int64_t value) {
    checked(sqlite3_bind_int64(statement_, ++bound_, value));
}

void Statement::bindNext(bool value) {
    bindNext(static_cast<std::int64_t>(value ? 1 : 0));
}

void Statement::bindNext(std::string_view value) {
    // A null pointer would be bound as NULL: an empty view must still be an empty text.
    const char* start = value.data() != nullptr ? value.data() : "";
    checked(sqlite3_bind_text64(statement_, ++bound_, start, value.size(), SQLITE_TRANSIENT,
                                SQLITE_UTF8));
}

void Statement::bindNext(const std::optional<std::int64_t>& value) {
    ++bound_;
    checked(value ? sqlite3_bind_int64(statement_, bound_, *value)
                  : sqlite3_bind_null(statement_, bound_));
}

void Statement::bindNext(const std::optional<double>& value) {
    if (value)
        checked(sqlite3_bind_double(statement_, ++bound_, *value));
    else
        checked(sqlite3_bind_null(statement_, ++bound_));
}

void Statement::checked(int code) const {
    if (code != SQLITE_OK)
        throwDatabaseError(database_, code, where_);
}

} // namespace swarfbook
