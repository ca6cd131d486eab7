// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/judged_case.h"
#include "record/photo_store.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <functional>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace swarfbook::test {

/// How often to kill: a hundred times, or fewer where everything is slow.
inline int timesToKill() {
    return std::getenv("SWARFBOOK_SHORT_TESTS") == nullptr ? 100 : 12;
}

/// Starts `become` in a child, kills it after the time given and waits for its end.
/// @return whether it was still at work when it was killed.
inline bool runAndKill(const std::function<void()>& become, std::chrono::microseconds after) {
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        become();
        _exit(127);
    }
    std::this_thread::sleep_for(after);
    kill(child, SIGKILL);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    if (WIFEXITED(status))
        REQUIRE(WEXITSTATUS(status) == 0);
    return WIFSIGNALED(status);
}

/// SQLite's own checks, and every photo's file there with its digest. Whole files that no entry
/// names are allowed, but no half-written file may have a photo's name.
inline void requireSound(const std::filesystem::path& folder) {
    namespace fs = std::filesystem;
    if (!fs::exists(folder / "book.db"))
        return;
    Database database(folder / "book.db", "the book in a test");
    Statement integrity = database.prepare("PRAGMA integrity_check");
    REQUIRE(integrity.step());
    REQUIRE(integrity.text(0) == "ok");
    REQUIRE_FALSE(database.prepare("PRAGMA foreign_key_check").step());
    if (database.number("SELECT count(*) FROM sqlite_schema") > 0) {
        REQUIRE(damagedJudgedCases(database).empty());
        Statement photos = database.prepare("SELECT sha256, extension, byte_count FROM photo");
        while (photos.step()) {
            const auto bytes =
                readWholeFile(PhotoStore(folder).fileOf(photos.text(0), photos.text(1)));
            REQUIRE(sha256Hex(bytes) == photos.text(0));
            REQUIRE(static_cast<std::int64_t>(bytes.size()) == photos.integer(2));
        }
    }
    std::error_code none;
    for (const auto& entry : fs::recursive_directory_iterator(folder / "photos", none))
        if (entry.is_regular_file() && entry.path().parent_path().filename() != "incoming")
            REQUIRE(sha256Hex(readWholeFile(entry.path())) == entry.path().stem());
}

} // namespace swarfbook::test
