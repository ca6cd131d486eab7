// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace swarfbook::test {

/// A word on a page with its box, points from the page's top-left corner.
struct PlacedWord {
    std::string text;
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
};

struct ReadPage {
    double width = 0.0, height = 0.0;
    std::vector<PlacedWord> words;
    std::string text; ///< words joined by single blanks, in reading order
};

struct ReadPdf {
    std::vector<ReadPage> pages;
    std::vector<std::string> infoKeys; ///< of the document's information dictionary
    std::string producer, title, author;
    std::string text; ///< of all pages
};

/// Reads a PDF with poppler, a library of its own.
ReadPdf readPdf(const std::vector<unsigned char>& bytes);

} // namespace swarfbook::test
