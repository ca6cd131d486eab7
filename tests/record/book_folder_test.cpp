// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <map>

using namespace swarfbook;

namespace {

using Values = std::map<std::string, std::string>;

/// Sets environment variables for one test ("" unsets) and puts them back.
class Environment {
  public:
    explicit Environment(const Values& wanted) {
        for (const auto& [name, value] : wanted) {
            const char* old = std::getenv(name.c_str());
            before_[name] = old == nullptr ? "" : old;
            set(name, value);
        }
    }
    ~Environment() {
        for (const auto& [name, value] : before_)
            set(name, value);
    }
    Environment(const Environment&) = delete;
    Environment& operator=(const Environment&) = delete;

  private:
    static void set(const std::string& name, const std::string& value) {
        if (value.empty())
            unsetenv(name.c_str());
        else
            setenv(name.c_str(), value.c_str(), 1);
    }
    Values before_;
};

} // namespace

TEST_CASE("the option names the book before the environment does") {
    const Environment environment(Values{{"SWARFBOOK_BOOK", "/tmp/other"}});
    CHECK(bookFolder("/tmp/given") == "/tmp/given");
    CHECK(bookFolder("shop") == std::filesystem::current_path() / "shop");
    CHECK(bookFolder(std::nullopt) == "/tmp/other");
    CHECK_THROWS_AS(bookFolder(""), UsageError);
}

// Source: XDG Base Directory Specification 0.8: $HOME/.local/share when $XDG_DATA_HOME is not set
// or empty; relative paths in it are to be ignored.
TEST_CASE("without a name the book is in the user's data folder") {
    const Environment data(Values{{"SWARFBOOK_BOOK", ""}, {"XDG_DATA_HOME", "/d"}, {"HOME", "/h"}});
    CHECK(bookFolder(std::nullopt) == "/d/swarfbook");
    {
        const Environment relative(Values{{"XDG_DATA_HOME", "d"}});
        CHECK(bookFolder(std::nullopt) == "/h/.local/share/swarfbook");
    }
    const Environment none(Values{{"XDG_DATA_HOME", ""}, {"HOME", ""}});
    CHECK_THROWS_AS(bookFolder(std::nullopt), UsageError);
}
