// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/book_if_there.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "entry/card_in_photo.h"

#include <filesystem>

namespace swarfbook::cli {

std::optional<Book> bookIfThere(const std::optional<std::string>& named) {
    if (named)
        return bookToRead(named);
    try {
        if (std::filesystem::exists(bookFolder(named)))
            return bookToRead(named);
    } catch (const ToolError&) {
    } catch (const UsageError&) {
    }
    return std::nullopt;
}

BarOfCard barsOfBookThere(const std::optional<std::string>& named) {
    return [named](const std::string& serial,
                   const std::string& layout) -> std::optional<Millimetres> {
        const auto book = bookIfThere(named);
        return book ? barsOf(*book)(serial, layout) : std::nullopt;
    };
}

} // namespace swarfbook::cli
