// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/picture_memory.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

using namespace swarfbook;

namespace {

/// Runs `change` in a process of its own. @return its exit code.
template <class Work> int apart(const Work& work) {
    const pid_t child = fork();
    if (child == 0)
        _exit(work());
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

} // namespace

TEST_CASE("The C library knows the settings for pictures' memory", "[base]") {
    // The dynamic loader lists every setting with the value in force (ld.so(8), --list-tunables).
    const std::string loader = "/lib64/ld-linux-x86-64.so.2";
    if (access(loader.c_str(), X_OK) != 0) {
        WARN(loader << " is not there: nothing to ask");
        return;
    }
    for (const char* line : {"malloc.hugetlb: 0x1 ", "malloc.mmap_threshold: 0x4000000 ",
                             "malloc.top_pad: 0x4000000 ", "malloc.trim_threshold: 0x10000000 "}) {
        INFO(line);
        CHECK(apart([&] {
                  unsetenv("GLIBC_TUNABLES");
                  preparePictureMemory();
                  const std::string ask = loader + " --list-tunables | grep -q '" + line + "'";
                  return std::system(ask.c_str()) == 0 ? 0 : 1;
              }) == 0);
    }
}

TEST_CASE("Settings that the user made stay", "[base]") {
    const int code = apart([] {
        setenv("GLIBC_TUNABLES", "glibc.malloc.check=1", 1);
        preparePictureMemory();
        return std::string(std::getenv("GLIBC_TUNABLES")) == "glibc.malloc.check=1" ? 0 : 1;
    });
    CHECK(code == 0);
}
