// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "files/temporary_folder.h"
#include "photo/decode.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

using namespace swarfbook;
using swarfbook::test::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

void checkRefused(const fs::path& path, const std::string& words) {
    INFO(path);
    const auto bytes = readPhotoFile(path);
    REQUIRE_FALSE(bytes.has_value());
    CHECK(bytes.error().reason == RefusalReason::notAPhoto);
    CHECK_THAT(bytes.error().detail, Catch::Contains(words) && Catch::Contains(path.string()));
    CHECK_FALSE(bytes.error().advice.empty());
}

} // namespace

TEST_CASE("a file's bytes are read as they are") {
    const TemporaryFolder folder;
    std::ofstream(folder / "a photo.jpg") << std::string("\xFF\xD8\0\n\r", 5);
    const auto bytes = readPhotoFile(folder / "a photo.jpg");
    REQUIRE(bytes);
    REQUIRE(bytes->size() == 5);
    CHECK((*bytes)[1] == std::byte{0xD8});
    CHECK((*bytes)[2] == std::byte{0});
    CHECK((*bytes)[4] == std::byte{'\r'});
}

TEST_CASE("anything but a photo file is refused, each with its own sentence") {
    const TemporaryFolder folder;
    std::ofstream(folder / "empty.jpg").flush();
    fs::create_symlink(folder / "gone.jpg", folder / "dangling.jpg");
    REQUIRE(mkfifo((folder / "pipe.jpg").c_str(), 0600) == 0);
    std::ofstream(folder / "huge.jpg").flush();
    fs::resize_file(folder / "huge.jpg", (std::uintmax_t{256} << 20) + 1);
    checkRefused(folder / "absent.jpg", "There is no file");
    checkRefused(folder / "absent/absent.jpg", "There is no file");
    checkRefused(folder / "dangling.jpg", "There is no file");
    checkRefused(folder.path(), "is a folder");
    checkRefused(folder / "empty.jpg", "is empty (0 bytes)");
    checkRefused(folder / "pipe.jpg", "not an ordinary file");
    checkRefused(folder / "huge.jpg", "up to 256 MiB");
    checkRefused(folder / (std::string(300, 'x') + ".jpg"), "cannot be read");
}

TEST_CASE("a file that may not be read is refused with the reason") {
    if (geteuid() == 0) {
        WARN("passed over: root may read everything");
        return;
    }
    const TemporaryFolder folder;
    std::ofstream(folder / "locked.jpg") << "x";
    fs::permissions(folder / "locked.jpg", fs::perms::none);
    checkRefused(folder / "locked.jpg", "cannot be read");
}
