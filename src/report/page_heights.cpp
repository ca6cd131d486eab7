// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/page_writer.h"

namespace swarfbook {

double PageWriter::paragraphHeight(const std::string& text, const TextStyle& style) const {
    if (text.empty())
        return 0.0;
    TextStyle wide = style;
    wide.width = width();
    return textExtent(pen(), text, wide).height + 3.0;
}

double PageWriter::subheadingHeight(const std::string& text) const {
    return textExtent(pen(), text, {.size = 10.5, .bold = true, .width = width()}).height + 6.0;
}

} // namespace swarfbook
