// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/folder.h"

#include <filesystem>
#include <string>

/// What to do where the system does not let this account read a file of a book. Such a file may be
/// whole: nothing is to be restored before it could be read.
/// Checked: tests/record/reading_rights_test.cpp.
namespace swarfbook {

/// Whether the system refused because the account that runs the program lacks the right.
bool lacksRight(const FileTrouble& trouble);

/// The name of the account that runs the program; its number where it has no name.
std::string thisAccount();

/// A sentence or two with the command that lets this account read the whole book, ready to be
/// pasted; whose the file is, where it is not this account's.
/// @param book  the book's folder.
/// @param file  what this account may not read, a file or a folder, named from the book's folder
/// on.
std::string adviceOnRights(const std::filesystem::path& book, const std::filesystem::path& file);

} // namespace swarfbook
