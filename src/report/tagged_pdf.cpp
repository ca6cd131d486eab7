// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/tagged_pdf.h"

// Asked for by the headers that follow: pointers of the standard library.
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

namespace swarfbook {

std::vector<unsigned char> markedAsTagged(const std::vector<unsigned char>& pdf,
                                          const std::string& language) {
    QPDF document;
    document.processMemoryFile("report", reinterpret_cast<const char*>(pdf.data()), pdf.size());
    QPDFObjectHandle root = document.getRoot();
    root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
    root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(language));
    root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /DisplayDocTitle true >>"));
    QPDFWriter writer(document);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.write();
    const auto written = writer.getBufferSharedPointer();
    return {written->getBuffer(), written->getBuffer() + written->getSize()};
}

} // namespace swarfbook
