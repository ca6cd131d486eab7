// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/card_sheets.h"

#include <poppler-font.h>
#include <poppler-page.h>

using namespace swarfbook;
using namespace swarfbook::test;

// Source: ISO 216 (A4) and ANSI Y14.1 (Letter, 8.5 x 11 inches); a point is 1/72 inch.
TEST_CASE("the page has the paper's size") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const auto document = documentOf(sheet);
        const std::unique_ptr<poppler::page> page(document->create_page(0));
        const poppler::rectf size = page->page_rect();
        const bool a4 = sheet.paper == PaperSize::a4;
        CHECK(size.width() == Approx(a4 ? 595.276 : 612.0).margin(0.01));
        CHECK(size.height() == Approx(a4 ? 841.890 : 792.0).margin(0.01));
    }
}

TEST_CASE("the sheet says how to print, measure, cut and lay the card, in embedded letters") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const auto document = documentOf(sheet);
        const std::unique_ptr<poppler::page> page(document->create_page(0));
        const auto utf8 = page->text().to_utf8();
        const std::string words(utf8.begin(), utf8.end());
        for (const char* needed :
             {"100 %", "actual size", "fit to page", "matt", "callipers", "Caution",
              "swarfbook card --serial C0042 --measured-bar", "swarfbook measure"})
            CHECK_THAT(words, Catch::Contains(needed));
        CHECK_THAT(words, Catch::Contains(sheet.cutWindow ? "Cut the window out"
                                                          : "Leave the window whole"));
        const auto fonts = document->fonts();
        CHECK_FALSE(fonts.empty());
        for (const poppler::font_info& font : fonts)
            CHECK(font.is_embedded());
    }
}

TEST_CASE("the sheet carries no date, so that the same card is the same file") {
    const auto document = documentOf({});
    CHECK(document->info_key("CreationDate").empty());
}

TEST_CASE("a serial with signs that markup uses is printed as it is") {
    CardSheet sheet{layouts().front(), "A<b>&1", PaperSize::a4, false};
    const auto document = documentOf(sheet);
    const std::unique_ptr<poppler::page> page(document->create_page(0));
    const auto utf8 = page->text().to_utf8();
    CHECK_THAT(std::string(utf8.begin(), utf8.end()), Catch::Contains("card A<b>&1"));
}

TEST_CASE("a card that is too wide for the sheet is our own mistake, not a cut-off print") {
    CardSheet sheet{layouts().front(), "C0001", PaperSize::a4, false};
    sheet.layout.outer.width = 200.0;
    CHECK_THROWS_AS(drawCardPdf(sheet), std::logic_error);
}
