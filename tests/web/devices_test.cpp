// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "files/temporary_folder.h"
#include "web/devices.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace swarfbook;
using namespace swarfbook::web;
using swarfbook::test::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

std::string contentOf(const fs::path& file) {
    std::ifstream in(file);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

} // namespace

TEST_CASE("a code pairs one device, whose token is known from then on") {
    const TemporaryFolder folder;
    Devices devices(folder / "pages");
    const std::string code = devices.newCode();
    CHECK(devices.isOffered(code));
    CHECK_FALSE(devices.isOffered("0"));
    const auto token = devices.pair(code, "  phone at bench 2 ");
    REQUIRE(token);
    CHECK(token->size() == 64); // 256 bits
    CHECK_FALSE(devices.isOffered(code));
    CHECK_FALSE(devices.pair(code, "another"));
    REQUIRE(devices.byToken(*token));
    CHECK(devices.byToken(*token)->name == "phone at bench 2");
    CHECK_FALSE(devices.byToken(""));
    CHECK_FALSE(devices.byToken(token->substr(1)));
}

TEST_CASE("devices are remembered, their tokens are not") {
    const TemporaryFolder folder;
    std::string token;
    {
        Devices devices(folder / "pages");
        token = devices.pair(devices.newCode(), "phone").value();
    }
    const fs::path file = folder / "pages" / "devices.json";
    CHECK(contentOf(file).find("phone") != std::string::npos);
    CHECK(contentOf(file).find(token) == std::string::npos);
    CHECK((fs::status(file).permissions() & fs::perms::mask) ==
          (fs::perms::owner_read | fs::perms::owner_write));
    CHECK((fs::status(folder / "pages").permissions() & fs::perms::mask) == fs::perms::owner_all);
    Devices again(folder / "pages");
    REQUIRE(again.byToken(token));
    CHECK(again.byToken(token)->number == "1");
}

TEST_CASE("a device that is let in no more stays out, and its number is not given again") {
    const TemporaryFolder folder;
    std::string token;
    {
        Devices devices(folder / "pages");
        token = devices.pair(devices.newCode(), "lost phone").value();
        CHECK(devices.revoke("1"));
        CHECK_FALSE(devices.revoke("1"));
        CHECK_FALSE(devices.byToken(token));
    }
    Devices again(folder / "pages");
    CHECK_FALSE(again.byToken(token));
    CHECK(again.all().empty());
    const auto next = again.pair(again.newCode(), "new phone");
    CHECK(again.byToken(next.value())->number == "2");
}

TEST_CASE("a device needs a name, and a list that cannot be read lets nobody in") {
    const TemporaryFolder folder;
    {
        Devices devices(folder / "pages");
        const std::string code = devices.newCode();
        CHECK_THROWS_AS(devices.pair(code, "  "), UsageError);
        CHECK_THROWS_AS(devices.pair(code, "a\x1b"), UsageError);
        CHECK_THROWS_AS(devices.pair(code, std::string(200, 'a')), UsageError);
        CHECK(devices.isOffered(code)); // not used up by that
    }
    std::ofstream(folder / "pages" / "devices.json") << "{\"format\": \"another\"}";
    CHECK_THROWS_AS(Devices(folder / "pages"), ToolError);
}

TEST_CASE("tokens differ") {
    CHECK(randomToken() != randomToken());
}
