// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace swarfbook {

/// Marks a PDF with tagged pages as tagged, so that screen readers use the tags (ISO 32000-1, 14.7
/// and 14.8: MarkInfo, Lang). Cairo writes the tags but not the mark.
///
/// @param language  of the text, such as "en".
/// @return the same document; the same bytes for the same document. Throws std::runtime_error for
/// bytes that are not a PDF.
/// Checked: tests/report/pdf_report_test.cpp.
std::vector<unsigned char> markedAsTagged(const std::vector<unsigned char>& pdf,
                                          const std::string& language);

} // namespace swarfbook
