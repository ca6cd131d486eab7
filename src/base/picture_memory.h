// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace swarfbook {

/// Has a program that this process becomes (execv) take its memory as suits pictures: in huge pages
/// where the kernel gives them, and kept for the next picture instead of given back after each one.
/// Measuring a photo of 12 megapixels then meets some 2,000 page faults in place of 26,000. These
/// are settings of glibc that it reads only while it starts (its manual, "Memory Allocation
/// Tunables"); another C library passes them over. They are named in CMakeLists.txt. Settings that
/// the user has made stay. Checked: tests/base/picture_memory_test.cpp.
void preparePictureMemory();

} // namespace swarfbook
