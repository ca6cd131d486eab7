// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
// Holds nothing: the precompiled headers that other targets take over belong to a target with a file.
