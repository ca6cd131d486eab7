// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/open_book.h"

#include <fmt/format.h>

#include <iostream>

namespace swarfbook::cli {
namespace {

void say(const std::string& sentence) {
    std::cerr << "swarfbook: " << sentence << std::endl;
}

Book talking(Book book) {
    book.talkTo(say);
    if (book.wasOpenToOthers())
        say(fmt::format("Other users of this machine could read the book in {}; now only its owner "
                        "can.",
                        book.folder().string()));
    showIn(shownBy(book.settings()));
    return book;
}

} // namespace

Book bookToRead(const std::optional<std::string>& named) {
    return talking(Book::openForReading(bookFolder(named)));
}

Book bookToWrite(const std::optional<std::string>& named, IfNoBook ifNone) {
    return talking(Book::open(bookFolder(named), ifNone));
}

Book bookToMeasureFor(const std::optional<std::string>& named, IfNoBook ifNone) {
    Book book = bookToWrite(named, ifNone);
    book.waitUpTo(std::chrono::minutes(1));
    return book;
}

} // namespace swarfbook::cli
