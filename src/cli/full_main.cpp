// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command.h"

int main(int argc, char** argv) {
    return swarfbook::cli::runWords({argv + 1, argv + argc});
}
