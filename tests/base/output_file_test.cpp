// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/output_file.h"
#include "base/outputs.h"
#include "cli/run_program.h"
#include "cli/small_disk.h"

#include <catch2/catch.hpp>

#include <csignal>
#include <sys/stat.h>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::vector<unsigned char> bytesOf(const std::string& text) {
    return {text.begin(), text.end()};
}

std::size_t filesIn(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), {}));
}

} // namespace

TEST_CASE("a file is written whole, for its owner alone") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "report.pdf";
    const mode_t before = umask(0);
    writeFile(file, bytesOf("whole"), IfThere::refuse);
    umask(before);
    CHECK(contentOf(file) == "whole");
    CHECK(fs::status(file).permissions() == fs::perms(0600));
    CHECK(filesIn(folder.path()) == 1);
}

TEST_CASE("an existing file is replaced only on request") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "report.pdf";
    writeFile(file, bytesOf("old"), IfThere::refuse);
    CHECK_THROWS_AS(writeFile(file, bytesOf("new"), IfThere::refuse), UsageError);
    CHECK(contentOf(file) == "old");
    fs::create_symlink(folder.path() / "nowhere", folder.path() / "link.pdf");
    CHECK_THROWS_AS(writeFile(folder.path() / "link.pdf", bytesOf("new"), IfThere::refuse),
                    UsageError);
    writeFile(file, bytesOf("new"), IfThere::replace);
    CHECK(contentOf(file) == "new");
    CHECK(filesIn(folder.path()) == 2);
}

TEST_CASE("a failed write leaves the old file, and no other") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "report.pdf";
    writeFile(file, bytesOf("old"), IfThere::refuse);
    CHECK_THROWS_AS(writeFile(folder.path(), bytesOf("n"), IfThere::replace), UsageError);
    CHECK_THROWS_AS(
        writeFile(folder.path() / "no such folder/a.pdf", bytesOf("n"), IfThere::refuse),
        ToolError);
    CHECK_THROWS_AS(writeFile("/proc/report.pdf", bytesOf("n"), IfThere::refuse), ToolError);
    CHECK(contentOf(file) == "old");
    CHECK(filesIn(folder.path()) == 1);
}

TEST_CASE("a full disk is named, and no part of the file is left on it") {
    const SmallDisk disk(64);
    if (!disk.isThere()) {
        WARN("no small disk can be mounted here: passed over");
        return;
    }
    const fs::path file = disk.path() / "report.pdf";
    writeFile(file, bytesOf("old"), IfThere::refuse);
    for (const IfThere ifThere : {IfThere::replace, IfThere::refuse}) {
        const fs::path goal = ifThere == IfThere::replace ? file : disk.path() / "other.pdf";
        CHECK_THROWS_WITH(writeFile(goal, std::vector<unsigned char>(100'000, 'x'), ifThere),
                          Contains("is full") && Contains(disk.path().string()));
    }
    CHECK(contentOf(file) == "old");
    CHECK(filesIn(disk.path()) == 1);
}

TEST_CASE("the rest of a killed command's file is removed, the file of a running one is not") {
    const TemporaryFolder folder;
    const pid_t gone = fork();
    if (gone == 0)
        _exit(0);
    waitpid(gone, nullptr, 0);
    const auto temporary = [&](pid_t process) {
        return folder.path() / (".a.pdf.swarfbook-" + std::to_string(process));
    };
    std::ofstream(temporary(gone)) << "half";
    std::ofstream(temporary(getppid())) << "half";
    std::ofstream(folder.path() / ".a.pdf.swarfbook-notes") << "the user's own";
    writeFile(folder.path() / "a.pdf", bytesOf("whole"), IfThere::replace);
    CHECK_FALSE(fs::exists(temporary(gone)));
    CHECK(fs::exists(temporary(getppid())));
    CHECK(fs::exists(folder.path() / ".a.pdf.swarfbook-notes"));
}

TEST_CASE("a writer killed again and again leaves the old file or the new one, never a half") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "report.pdf";
    const std::string old(3'000'000, 'o'), fresh(3'000'000, 'n');
    writeFile(file, bytesOf(old), IfThere::refuse);
    for (int round = 0; round < 20; ++round) {
        const pid_t child = fork();
        if (child == 0) {
            for (int i = 0;; ++i)
                writeFile(file, bytesOf(i % 2 == 0 ? fresh : old), IfThere::replace);
        }
        usleep(static_cast<useconds_t>(1000 + 700 * round));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        const std::string content = contentOf(file);
        CHECK((content == old || content == fresh));
    }
}

TEST_CASE("an input is known by its inode: under another name, through links and folders") {
    const TemporaryFolder folder;
    const fs::path photo = folder.path() / "o.jpg";
    std::ofstream(photo) << "photo";
    fs::create_directory(folder.path() / "sub");
    fs::create_hard_link(photo, folder.path() / "hard.jpg");
    fs::create_symlink(photo, folder.path() / "soft.jpg");
    fs::create_directory_symlink(folder.path(), folder.path() / "sub/up");
    Outputs outputs(IfThere::replace);
    outputs.addInput(photo);
    for (const char* name : {"o.jpg", "./o.jpg", "sub/../o.jpg", "hard.jpg", "soft.jpg",
                             "sub/up/o.jpg", "sub/up/hard.jpg"}) {
        INFO(name);
        CHECK_THROWS_WITH(outputs.plan(folder.path() / name), Contains("reads"));
        CHECK_THROWS_AS(outputs.write(folder.path() / name, bytesOf("picture")), UsageError);
    }
    CHECK(contentOf(photo) == "photo");
    CHECK_NOTHROW(outputs.plan(folder.path() / "other.jpg"));
    CHECK_THROWS_WITH(outputs.plan(folder.path() / "sub/../other.jpg"), Contains("twice"));
}

TEST_CASE("no output is written among the files of a book, its own or another's") {
    const TemporaryFolder folder;
    const fs::path book = folder.path() / "book", original = book / "photos/ab/original.jpg";
    fs::create_directories(original.parent_path());
    fs::create_directories(book / "units");
    std::ofstream(original) << "photo";
    std::ofstream(book / "book.db") << "entries";
    fs::create_directory_symlink(book / "photos/ab", folder.path() / "photos-of-book");
    fs::create_hard_link(original, folder.path() / "hard.jpg");
    fs::create_symlink(original, folder.path() / "soft.jpg");
    const std::vector<fs::path> forbidden{original,
                                          book / "photos/ab/new.jpg",
                                          book / "units/new.json",
                                          book / "report.pdf",
                                          book / "book.db",
                                          folder.path() / "photos-of-book/original.jpg",
                                          folder.path() / "photos-of-book/new.jpg",
                                          folder.path() / "soft.jpg"};
    for (const bool told : {false, true}) {
        Outputs outputs(IfThere::replace);
        if (told)
            outputs.addBook(book);
        for (const fs::path& file : forbidden) {
            INFO(file << told);
            CHECK_THROWS_WITH(outputs.plan(file), Contains("of a book"));
        }
        if (told)
            CHECK_THROWS_WITH(outputs.plan(folder.path() / "hard.jpg"), Contains("of the book"));
        CHECK_NOTHROW(outputs.plan(folder.path() / "report.pdf"));
    }
    // A book that has lost its book.db is still the book that was named.
    fs::remove(book / "book.db");
    Outputs outputs(IfThere::replace);
    outputs.addBook(book);
    CHECK_THROWS_AS(outputs.plan(original), UsageError);
    CHECK(contentOf(original) == "photo");
}

TEST_CASE("a temporary file's name says which file it was to become") {
    CHECK(goalOfTemporary(".demo.json.swarfbook-1234") == "demo.json");
    for (const char* other : {"demo.json", ".demo.json", ".demo.json.swarfbook-",
                              ".demo.json.swarfbook-12x", "demo.json.swarfbook-12", ".swarfbook-12",
                              ".demo.json.swarfbook-0", ".demo.json.swarfbook--3"})
        CHECK_FALSE(goalOfTemporary(other));
}
