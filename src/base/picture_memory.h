// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace swarfbook {

/// Sets how the program that this process becomes (execv) takes memory, so that it suits pictures:
/// in huge pages if the kernel gives them, and kept for the next picture instead of given back
/// after each one. Measuring a photo of 12 megapixels then causes some 2,000 page faults instead of
/// 26,000. These are settings of glibc that it reads only when it starts (its manual, "Memory
/// Allocation Tunables"); another C library ignores them. They are named in CMakeLists.txt.
/// Settings that the user has made stay. Checked: tests/base/picture_memory_test.cpp.
void preparePictureMemory();

} // namespace swarfbook
