// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// How a photo of the cleaned place was used for this measurement: how it was laid under the photo,
/// how well it fits, how much of the window it shows and how many finds it removed; or that it was
/// not used. "" if none was given. Names no file.
std::string cleanReferenceSentence(const Measurement& measurement);

} // namespace swarfbook
