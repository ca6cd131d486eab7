// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/folder.h"

#include <filesystem>
#include <string>

/// What to do if the system does not let this account read a file of a book. Such a file may be
/// whole, so nothing must be restored before it was read.
/// Checked: tests/record/reading_rights_test.cpp.
namespace swarfbook {

/// Whether the system refused because this account lacks the right.
bool lacksRight(const FileTrouble& trouble);

/// The name of the account that runs the program; its number if it has no name.
std::string thisAccount();

/// A sentence or two with the command that lets this account read the whole book, ready to paste;
/// also names the file's owner if it is another account.
/// @param book  the book's folder.
/// @param file  the file or folder that this account may not read, by its path in the book's
///              folder.
std::string adviceOnRights(const std::filesystem::path& book, const std::filesystem::path& file);

} // namespace swarfbook
