// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cairo.h>
#include <opencv2/core.hpp>

#include <memory>
#include <string>
#include <string_view>

/// Small helpers over Cairo and Pango that pictures and PDF pages share. A length is in the
/// surface's own unit: pixels on a picture, points on a PDF page.
namespace swarfbook {

struct CairoRelease {
    void operator()(cairo_t* p) const { cairo_destroy(p); }
    void operator()(cairo_surface_t* p) const { cairo_surface_destroy(p); }
};
using CairoPen = std::unique_ptr<cairo_t, CairoRelease>;
using CairoSurface = std::unique_ptr<cairo_surface_t, CairoRelease>;

/// An sRGB colour with opacity, each 0 to 1.
struct Ink {
    double red = 0.0, green = 0.0, blue = 0.0, opacity = 1.0;
};
inline constexpr Ink black{};
inline constexpr Ink white{1.0, 1.0, 1.0, 1.0};
constexpr Ink grey(double lightness) {
    return {lightness, lightness, lightness, 1.0};
}

/// A place on the surface, and the size of something drawn.
struct Spot {
    double x = 0.0, y = 0.0;
};
struct Extent {
    double width = 0.0, height = 0.0;
};

enum class Align { left, centre, right };

struct TextStyle {
    double size = 10.0; ///< of the letters' em
    bool bold = false;
    bool italic = false;
    Ink ink = black;
    Align align = Align::left; ///< inside the width given
    double width = 0.0;        ///< lines are broken at this width; 0: one line
    int maxLines = 0;          ///< a longer text ends in an ellipsis; 0: no limit
    bool tabularWords = false; ///< fixed-pitch letters
};

/// Room that the text takes. Unprintable characters (base/text.h) are shown escaped.
Extent textExtent(cairo_t* pen, std::string_view text, const TextStyle& style);
/// Draws the text with its top-left corner (of its box, not of its ink) at `at`; returns its room.
Extent drawText(cairo_t* pen, Spot at, std::string_view text, const TextStyle& style);

struct HaloStyle {
    const TextStyle& letters;
    Ink halo;
};
/// The text with an outline of another colour round each letter: legible on any photo.
Extent drawHaloText(cairo_t* pen, Spot at, std::string_view text, const HaloStyle& style);

void setInk(cairo_t* pen, Ink ink);

/// Marks that are drawn once and then put onto pictures. Unlike a Picture it holds no pixels of its
/// own, so that a large photo is drawn on in place.
class Drawing {
  public:
    Drawing();
    /// Cairo's frame: the top-left corner of the picture's top-left pixel is (0, 0).
    [[nodiscard]] cairo_t* pen() const { return pen_.get(); }
    /// Draws it on an 8-bit BGR picture, some rows at a time.
    void putOnto(cv::Mat& bgr) const;

  private:
    CairoSurface surface_;
    CairoPen pen_;
};

/// A picture to draw on.
class Picture {
  public:
    /// A copy of an 8-bit BGR picture. Throws std::logic_error for another type or none.
    explicit Picture(const cv::Mat& bgr);
    /// White, `width` x `height` pixels.
    Picture(int width, int height);
    /// Cairo's frame: the top-left corner of the top-left pixel is (0, 0).
    [[nodiscard]] cairo_t* pen() const { return pen_.get(); }
    [[nodiscard]] int width() const { return pixels_.cols; }
    [[nodiscard]] int height() const { return pixels_.rows; }
    /// The drawn picture, 8-bit BGR.
    [[nodiscard]] cv::Mat bgr() const;

  private:
    void open();
    cv::Mat pixels_; // BGRX, which Cairo draws on in place
    CairoSurface surface_;
    CairoPen pen_;
};

} // namespace swarfbook
