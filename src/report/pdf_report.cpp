// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pdf_report.h"

#include "base/memory.h"
#include "base/text.h"
#include "report/customer_pages.h"
#include "report/evidence_pages.h"
#include "report/report_words.h"
#include "report/tagged_pdf.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <stdexcept>

namespace swarfbook {

namespace {

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    auto* bytes = static_cast<std::vector<unsigned char>*>(closure);
    try {
        bytes->insert(bytes->end(), data, data + length);
    } catch (const std::bad_alloc&) {
        return CAIRO_STATUS_NO_MEMORY;
    }
    return CAIRO_STATUS_SUCCESS;
}

std::string headerOf(const ReportedJob& job) {
    std::string header = job.workshop.empty() ? "" : job.workshop + "   \u00b7   ";
    header += fmt::format("Vehicle {}   \u00b7   visit {}   \u00b7   {}", job.vehicle, job.visit,
                          dateWords(job.date));
    return header;
}

std::string reportTitle(const ReportedJob& job) {
    return fmt::format("Transmission inspection, vehicle {}, {}", job.vehicle, dateWords(job.date));
}

/// The data that one pass over the pages needs.
struct PdfPass {
    const PageFrame& frame;
    const PdfNames& names;
    PictureStore& pictures;
};

/// Most memory that setting letters takes; Pango and Fontconfig end the program if they get no
/// memory or thread, so this is checked first.
constexpr std::size_t lettersMiB = 192;

/// Title and author come from the report; no date and no program of this machine.
void setMetadata(cairo_surface_t* pdf, const PdfNames& names) {
    const auto set = [&](cairo_pdf_metadata_t key, const std::string& text) {
        cairo_pdf_surface_set_metadata(pdf, key, text.empty() ? nullptr : shown(text).c_str());
    };
    set(CAIRO_PDF_METADATA_TITLE, names.title);
    set(CAIRO_PDF_METADATA_AUTHOR, names.author);
    for (const auto key :
         {CAIRO_PDF_METADATA_CREATOR, CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE})
        cairo_pdf_surface_set_metadata(pdf, key, nullptr);
}

/// One pass over all pages; gives their number.
int writePages(const WritePages& write, const PdfPass& pass, std::vector<unsigned char>& bytes) {
    const auto& [frame, names, pictures] = pass;
    const CairoSurface pdf(
        cairo_pdf_surface_create_for_stream(append, &bytes, frame.paper.width, frame.paper.height));
    cairo_pdf_surface_restrict_to_version(pdf.get(), CAIRO_PDF_VERSION_1_5);
    setMetadata(pdf.get(), names);
    PageWriter writer(pdf.get(), frame, pictures);
    write(writer);
    writer.finish();
    cairo_surface_finish(pdf.get());
    const cairo_status_t status = cairo_surface_status(pdf.get());
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(fmt::format("The report's pages could not be drawn: {}.",
                                             cairo_status_to_string(status)));
    return writer.pages();
}

} // namespace

std::vector<unsigned char> pdfOfPages(const Paper& paper, const PdfNames& names,
                                      const WritePages& write) {
    requireMemory(lettersMiB);
    PictureStore pictures;
    PageFrame frame{paper, names.header, 0, names.bareFirst};
    std::vector<unsigned char> counted;
    frame.pageCount = writePages(write, {frame, names, pictures}, counted);
    std::vector<unsigned char> bytes;
    writePages(write, {frame, names, pictures}, bytes);
    return markedAsTagged(bytes, "en");
}

std::vector<unsigned char> pdfReport(const ReportModel& model, const Paper& paper, Reader reader) {
    const PdfNames names{headerOf(model.job), reportTitle(model.job), model.job.workshop, true};
    return pdfOfPages(paper, names, [&](PageWriter& page) {
        writeCustomerPages(page, model);
        if (reader == Reader::workshop)
            writeEvidencePages(page, model);
    });
}

} // namespace swarfbook
