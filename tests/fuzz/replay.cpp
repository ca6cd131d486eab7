// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "fuzz/fuzz_target.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

std::map<std::string, FuzzTarget>& fuzzTargets() {
    static std::map<std::string, FuzzTarget> all;
    return all;
}

namespace {

std::vector<std::filesystem::path> corpusFiles(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files.push_back(entry.path());
    if (files.empty())
        throw std::runtime_error(folder.string() + " holds no file");
    std::sort(files.begin(), files.end());
    return files;
}

void replay(FuzzTarget target, const std::filesystem::path& file) {
    std::cout << file.filename().string() << std::endl; // before it: the last one named crashed
    std::ifstream in(file, std::ios::binary);
    const std::vector<char> bytes(std::istreambuf_iterator<char>(in), {});
    const std::vector<std::uint8_t> data(bytes.begin(), bytes.end());
    target(data.data(), data.size());
}

} // namespace

// Feeds every file of a folder once to the fuzz target of that name, without the fuzzer and with
// any compiler: a file that crashed once must not crash again.
int main(int argc, char** argv) {
    try {
        if (argc != 3 || !fuzzTargets().contains(argv[1]))
            throw std::runtime_error("usage: fuzz_replay NAME FOLDER");
        for (const auto& file : corpusFiles(argv[2]))
            replay(fuzzTargets().at(argv[1]), file);
        return 0;
    } catch (const std::exception& wrong) {
        std::cerr << wrong.what() << "\n";
        return 1;
    }
}
