// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book_privacy.h"

#include "base/private_file.h"

#include <algorithm>
#include <vector>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

bool isOfBook(const fs::path& file) {
    const std::string name = file.filename().string();
    return name.starts_with("book.db") || name == "photos" || name == "units" ||
           name == "set-aside";
}

} // namespace

bool closeBookToOthers(const fs::path& folder) {
    std::vector<fs::path> own;
    bool othersThings = false;
    std::error_code none;
    for (fs::directory_iterator entry(folder, none), end; !none && entry != end;
         entry.increment(none)) {
        if (isOfBook(entry->path()))
            own.push_back(entry->path());
        else
            othersThings = true;
    }
    if (!othersThings)
        own.push_back(folder);
    // What lies in a closed folder is out of reach, so the photos are gone through only once.
    const auto anyOpen = [&] { return std::any_of(own.begin(), own.end(), isOpenToOthers); };
    if (!anyOpen())
        return false;
    for (const fs::path& file : own)
        closeToOthers(file);
    return !anyOpen();
}

} // namespace swarfbook
