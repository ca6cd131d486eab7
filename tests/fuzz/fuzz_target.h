// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

/// FUZZ_TARGET(name, data, size) { ... return 0; }: what the fuzzer of that name does with its
/// bytes. In a build for fuzzing each is a program of its own and this is libFuzzer's entry.
/// Otherwise one program holds them all (replay.cpp) and finds them by their names.
using FuzzTarget = int (*)(const std::uint8_t* data, std::size_t size);

#ifdef SWARFBOOK_FUZZ
#define FUZZ_TARGET(name, data, size)                                                              \
    extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
#else
/// Every target of this program by its name.
std::map<std::string, FuzzTarget>& fuzzTargets();

#define FUZZ_TARGET(name, data, size)                                                              \
    static int name(const std::uint8_t* data, std::size_t size);                                   \
    [[maybe_unused]] static const bool name##IsKnown = fuzzTargets().emplace(#name, name).second;  \
    static int name(const std::uint8_t* data, std::size_t size)
#endif
