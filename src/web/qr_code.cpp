// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/qr_code.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <cstdlib>
#include <memory>
#include <qrencode.h>

namespace swarfbook::web {
namespace {

constexpr int quiet = 4; ///< modules, ISO/IEC 18004 section 6.3.8

class Modules {
  public:
    explicit Modules(const std::string& text)
        : code_(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M), QRcode_free) {
        if (!code_)
            throw ToolError("The QR code of the pages' address could not be made.");
    }
    [[nodiscard]] int size() const { return code_->width + 2 * quiet; }
    [[nodiscard]] bool isDark(int row, int column) const {
        const int r = row - quiet, c = column - quiet;
        if (r < 0 || c < 0 || r >= code_->width || c >= code_->width)
            return false;
        return (code_->data[r * code_->width + c] & 1U) != 0;
    }

  private:
    std::unique_ptr<QRcode, void (*)(QRcode*)> code_;
};

} // namespace

std::string qrForTerminal(const std::string& text) {
    const Modules modules(text);
    std::string lines;
    for (int row = 0; row < modules.size(); row += 2) {
        lines += "\x1b[30;107m"; // black on bright white
        for (int column = 0; column < modules.size(); ++column) {
            const bool upper = modules.isDark(row, column), lower = modules.isDark(row + 1, column);
            lines += upper ? (lower ? "\u2588" : "\u2580") : (lower ? "\u2584" : " ");
        }
        lines += "\x1b[0m\n";
    }
    return lines;
}

std::string qrAsSvg(const std::string& text) {
    const Modules modules(text);
    std::string path;
    for (int row = 0; row < modules.size(); ++row)
        for (int column = 0; column < modules.size(); ++column)
            if (modules.isDark(row, column))
                path += fmt::format("M{} {}h1v1h-1z", column, row);
    return fmt::format("<svg class=\"qr\" viewBox=\"0 0 {0} {0}\" role=\"img\" "
                       "aria-label=\"QR code with the address that pairs a phone\">"
                       "<rect width=\"{0}\" height=\"{0}\" fill=\"#fff\"/>"
                       "<path fill=\"#000\" shape-rendering=\"crispEdges\" d=\"{1}\"/></svg>",
                       modules.size(), path);
}

} // namespace swarfbook::web
