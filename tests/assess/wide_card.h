// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "rendered/used_surface.h"

namespace swarfbook::test {

/// A drawn photo of the wide card on a bare place, in focus and seen from above.
inline Photo photoOfBareWideCard() {
    Drawing drawing;
    drawing.layout = layoutNamed("wide");
    Camera camera;
    camera.distance = 175.0;
    camera.aim = {95.0, 70.0};
    return photograph(drawing, camera, {1.0, 1.0, 1.5, 1.0, 3});
}

} // namespace swarfbook::test
