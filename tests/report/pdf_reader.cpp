// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pdf_reader.h"

#include <poppler-document.h>
#include <poppler-page.h>

#include <stdexcept>

namespace swarfbook::test {

namespace {

std::string utf8(const poppler::ustring& text) {
    const poppler::byte_array bytes = text.to_utf8();
    return {bytes.begin(), bytes.end()};
}

ReadPage readPage(const poppler::page& page) {
    ReadPage read;
    read.width = page.page_rect().width();
    read.height = page.page_rect().height();
    for (const poppler::text_box& box : page.text_list()) {
        const poppler::rectf at = box.bbox();
        read.words.push_back({utf8(box.text()), at.left(), at.top(), at.right(), at.bottom()});
        read.text += (read.text.empty() ? "" : " ") + read.words.back().text;
    }
    return read;
}

} // namespace

ReadPdf readPdf(const std::vector<unsigned char>& bytes) {
    std::vector<char> own(bytes.begin(), bytes.end());
    const std::unique_ptr<poppler::document> document(poppler::document::load_from_data(&own));
    if (!document)
        throw std::runtime_error("poppler cannot read the PDF");
    ReadPdf read;
    read.infoKeys = document->info_keys();
    read.producer = utf8(document->info_key("Producer"));
    read.title = utf8(document->info_key("Title"));
    read.author = utf8(document->info_key("Author"));
    for (int i = 0; i < document->pages(); ++i) {
        const std::unique_ptr<poppler::page> page(document->create_page(i));
        read.pages.push_back(readPage(*page));
        read.text += (i > 0 ? " " : "") + read.pages.back().text;
    }
    return read;
}

} // namespace swarfbook::test
