# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
