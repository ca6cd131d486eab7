// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook::test {

/// The folder of the project's demo photos, for tests of what is done with a photo, not of what is
/// measured in it. With sanitizers, where a photo takes ten times as long, it is a folder of this
/// program alone that holds the same photos at half their width and height.
const std::filesystem::path& demoPhotos();

} // namespace swarfbook::test
