// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/trial_book.h"

#include <string>

namespace swarfbook::test {

/// A reading of a shank of 2.00 mm at 40, 30 mm in a photo of this number, by whom.
inline StoredCheck checkOf(int photo, double readingMm, const std::string& by) {
    StoredCheck check;
    check.photoSha256 = sha256Hex(photoBytes(photo, 100));
    check.knownText = "2.00mm";
    check.knownMm = 2.0;
    check.knownUMm = 0.003;
    check.thing = "shank";
    check.readingMm = readingMm;
    check.readingUMm = 0.012;
    check.seenBy = by;
    check.phone = "camera 3f2a91c0";
    check.layout = "close";
    check.serial = "C0001";
    check.printScaleChecked = true;
    check.programVersion = "test";
    check.at = PointOnCard{40.0, 30.0};
    return check;
}

} // namespace swarfbook::test
