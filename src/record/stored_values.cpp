// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/stored_values.h"

#include "base/errors.h"
#include "record/calendar.h"
#include "record/photo_store.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::string_view lastDay = "9999-12-31"; // of four digits

bool isDay(const std::string& text) {
    try {
        return text != "today" && checkedDate(text, lastDay) == text;
    } catch (const UsageError&) {
        return false;
    }
}

/// Whether a text has digits where the form has 'd', and equals the form elsewhere.
bool hasForm(std::string_view text, std::string_view form) {
    if (text.size() != form.size())
        return false;
    for (std::size_t i = 0; i < form.size(); ++i)
        if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != form[i])
            return false;
    return true;
}

} // namespace

bool isSha256(std::string_view text) {
    return text.size() == 64 &&
           text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

void throwDamaged(const std::string& where, std::string_view entry, std::string_view what) {
    throw ToolError(fmt::format("{} is damaged: {} of {} cannot be right. Nothing was changed. "
                                "swarfbook book check says what else is wrong; bring the book back "
                                "from your last backup with swarfbook restore.",
                                where, what, entry));
}

std::string StoredRow::sha256(const std::string& text) const {
    if (!isSha256(text))
        throwDamaged(where, entry, "the SHA-256");
    return text;
}

std::string StoredRow::extension(const std::string& text) const {
    if (!isPhotoExtension(text))
        throwDamaged(where, entry, "the kind of file");
    return text;
}

Place StoredRow::place(const std::string& text) const {
    try {
        return placeFromName(text);
    } catch (const std::invalid_argument&) {
        throwDamaged(where, entry, "the place");
    }
}

std::string StoredRow::date(const std::string& text) const {
    if (!isDay(text))
        throwDamaged(where, entry, "the date");
    return text;
}

std::string StoredRow::dateOrEmpty(const std::string& text) const {
    return text.empty() ? text : date(text);
}

std::string StoredRow::moment(const std::string& text) const {
    if (!hasForm(text, "dddd-dd-ddTdd:dd:ddZ"))
        throwDamaged(where, entry, "the moment");
    return text;
}

std::optional<double> StoredRow::distanceKm(std::optional<double> km) const {
    if (km && !(*km >= 0.0 && *km <= farthestKm))
        throwDamaged(where, entry, "a distance");
    return km;
}

double StoredRow::lengthMm(std::optional<double> mm) const {
    if (!mm || !(*mm >= 0.0 && *mm <= longestMm))
        throwDamaged(where, entry, "a length");
    return *mm;
}

double StoredRow::coordinateMm(std::optional<double> mm) const {
    if (!mm || !(std::abs(*mm) <= farthestOnCardMm))
        throwDamaged(where, entry, "a place on the card");
    return *mm;
}

std::string StoredRow::layout(const std::string& text) const {
    if (text != "close" && text != "wide")
        throwDamaged(where, entry, "the layout");
    return text;
}

std::string StoredRow::key(const std::string& text, std::size_t longest) const {
    if (text.empty() || text.size() > longest)
        throwDamaged(where, entry, "the name");
    return text;
}

} // namespace swarfbook
