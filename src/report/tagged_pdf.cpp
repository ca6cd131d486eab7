// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/tagged_pdf.h"

#include <memory>
#include <qpdf/qpdf-c.h> // its headers for C++ do not compile as C++20 with clang
#include <stdexcept>

namespace swarfbook {
namespace {

struct Closes {
    void operator()(_qpdf_data* document) const { qpdf_cleanup(&document); }
};
using Document = std::unique_ptr<_qpdf_data, Closes>;

void requireDone(const Document& document, QPDF_ERROR_CODE code) {
    if ((code & (QPDF_ERRORS)) == 0)
        return;
    const std::string why =
        qpdf_get_error_full_text(document.get(), qpdf_get_error(document.get()));
    throw std::runtime_error("The report's pages could not be marked as tagged: " + why);
}

} // namespace

std::vector<unsigned char> markedAsTagged(const std::vector<unsigned char>& pdf,
                                          const std::string& language) {
    const Document document(qpdf_init());
    _qpdf_data* const pages = document.get();
    qpdf_silence_errors(pages);
    qpdf_set_suppress_warnings(pages, QPDF_TRUE);
    requireDone(document,
                qpdf_read_memory(pages, "report", reinterpret_cast<const char*>(pdf.data()),
                                 pdf.size(), nullptr));
    const qpdf_oh root = qpdf_get_root(pages);
    const auto put = [&](const char* key, qpdf_oh value) {
        qpdf_oh_replace_key(pages, root, key, value);
    };
    put("/MarkInfo", qpdf_oh_parse(pages, "<< /Marked true >>"));
    put("/Lang", qpdf_oh_new_unicode_string(pages, language.c_str()));
    put("/ViewerPreferences", qpdf_oh_parse(pages, "<< /DisplayDocTitle true >>"));
    requireDone(document, qpdf_init_write_memory(pages));
    qpdf_set_deterministic_ID(pages, QPDF_TRUE);
    requireDone(document, qpdf_write(pages));
    const unsigned char* const written = qpdf_get_buffer(pages);
    return {written, written + qpdf_get_buffer_length(pages)};
}

} // namespace swarfbook
