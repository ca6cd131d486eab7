// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/check_standard.h"

#include "gauge/lying_body.h"
#include "gauge/thing_edges.h"
#include "gauge/thing_shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array<std::pair<StandardKind, std::string_view>, 4> thingNames{{
    {StandardKind::shank, "shank"},
    {StandardKind::wire, "wire"},
    {StandardKind::strip, "strip"},
    {StandardKind::ball, "ball"},
}};

constexpr double thinnest = 2.5;     // edge widths: a narrower thing has no level between its edges
constexpr double near = 1.4;         // a card printed wrongly is off by less than this factor
constexpr double asNear = 1.1;       // two things that a rough look cannot distinguish by size
constexpr double levelShift = 0.09;  // of an edge's width, rms: how far the half level of the
                                     // card's own black edges lies outward in 25 photos through a
                                     // phone's tone curve and sharpening (our own experiment)
constexpr double unevenPaper = 0.15; // mm, standard: paper that does not lie quite flat; our choice
constexpr double heightKnown = 0.03; // relative, of the camera's height: a phone states its focal
                                     // length as a whole millimetre of film, 26 mm +- 0.5
constexpr double heightGuessed = 0.15; // the same for a phone that states none; our choice
constexpr double thickestStrip = 1.0;  // mm: feeler strips; common practice, no source

double uniform(double width) {
    return width / std::sqrt(12.0);
}

bool couldBe(const RoughShape& shape, const CheckStandard& thing) {
    return !thing.kind || shape.bar == (*thing.kind != StandardKind::ball);
}

std::string wanted(const CheckStandard& thing) {
    return fmt::format("{} of {:.2f} mm", thing.kind ? standardName(*thing.kind) : "thing",
                       thing.size.value.value());
}

std::string describe(const RoughShape& shape) {
    return fmt::format("a {} {:.1f} mm {} at {:.0f}, {:.0f} mm", shape.bar ? "bar" : "disc",
                       shape.width, shape.bar ? "wide" : "across", shape.centre.x, shape.centre.y);
}

double awayFrom(const RoughShape& shape, double size) {
    return std::abs(std::log(shape.width / size));
}

using Chosen = std::variant<RoughShape, StandardNotRead>;

Chosen chooseShape(std::vector<RoughShape> shapes, const CheckStandard& thing) {
    const double size = thing.size.value.value();
    std::erase_if(shapes, [&](const RoughShape& s) { return !couldBe(s, thing); });
    std::sort(shapes.begin(), shapes.end(), [&](const RoughShape& a, const RoughShape& b) {
        return awayFrom(a, size) < awayFrom(b, size);
    });
    if (shapes.empty() || awayFrom(shapes[0], size) > std::log(near))
        return StandardNotRead{
            fmt::format("No {} was found in the card's window{}.", wanted(thing),
                        shapes.empty() ? "" : ": the nearest in size is " + describe(shapes[0])),
            "Lay one thing of that size on the card's white window, apart from everything else and "
            "not across the window's line, and take the photo again; or check the size typed."};
    if (shapes.size() > 1 &&
        awayFrom(shapes[1], size) < awayFrom(shapes[0], size) + std::log(asNear))
        return StandardNotRead{
            fmt::format("Several things in the window may be the {}: {} and {}.", wanted(thing),
                        describe(shapes[0]), describe(shapes[1])),
            "Leave only the one of known size in the window and take the photo again."};
    return shapes[0];
}

StandardNotRead hardShadow() {
    return {
        "A second sharp line runs along the thing, the border of a hard shadow or a reflection, "
        "so its own edge cannot be found.",
        "Use soft light (a white wall, a cloudy window, a lamp through paper) from above and "
        "take the photo again."};
}

StandardNotRead noEdges(const std::string& what) {
    return {what, "Lay a straight, clean, undamaged piece on the card's white window in even "
                  "light, focus on the card, and take the photo again."};
}

/// Camera height and what depends on it, for parts of the uncertainty.
struct View {
    CameraPlace camera;
    double heightU = 0.0; ///< relative
};

/// A reading without its uncertainty.
struct Raw {
    double size = 0.0, seen = 0.0;
    double heightEffect = 0.0; ///< mm by which the size moves with one heightU
    double kindEffect = 0.0;   ///< mm, standard: round or flat, thickness not known
    double scatter = 0.0;      ///< mm, standard, of the fit
};

/// Size of a bar as round or flat at this camera height.
double barSize(const SeenEdges& seen, const CheckStandard& thing, double height, double thickness) {
    const bool flat = thing.kind == StandardKind::strip;
    return flat ? flatBarWidth(seen, thickness, height) : roundBarDiameter(seen, height);
}

Raw rawBar(const SeenEdges& seen, const CheckStandard& thing, const View& view) {
    Raw raw;
    raw.seen = seen.to - seen.from;
    const double height = view.camera.height;
    const double higher = height * (1.0 + view.heightU);
    if (!thing.kind) { // round or flat, thin or thick: the extremes are a thin strip and a rod
        const double round = roundBarDiameter(seen, height);
        raw.size = (round + raw.seen) / 2.0;
        raw.kindEffect = uniform(raw.seen - round);
        raw.heightEffect = (roundBarDiameter(seen, higher) - round) / 2.0;
        return raw;
    }
    const double thickness = thing.thickness ? thing.thickness->value() : thickestStrip / 2.0;
    raw.size = barSize(seen, thing, height, thickness);
    raw.heightEffect = barSize(seen, thing, higher, thickness) - raw.size;
    if (thing.kind == StandardKind::strip && !thing.thickness)
        raw.kindEffect = uniform(flatBarWidth(seen, thickestStrip, height) - raw.seen);
    return raw;
}

/// The parts that every reading has, and their sum.
void addUncertainty(StandardReading& reading, const Raw& raw, const CalibratedPhoto& photo,
                    const View& view) {
    const double size = raw.size;
    const auto part = [&](const std::string& from, double u) {
        reading.parts.push_back({from, Millimetres(std::abs(u))});
    };
    part("level at the two edges", 2.0 * levelShift * edgeWidthOnCard(photo));
    part("scatter of the edges", raw.scatter);
    part("fit of the card", size * photo.card.scaleUPercent / 100.0);
    part("print scale", size * photo.printScale.standardUncertainty / photo.printScale.value);
    part("camera's height", raw.heightEffect);
    part("paper not flat", size * unevenPaper / view.camera.height);
    if (raw.kindEffect != 0.0)
        part("thickness not given", raw.kindEffect);
    double squares = 0.0;
    for (const UncertaintyPart& p : reading.parts)
        squares += std::pow(p.standardUncertainty.value(), 2);
    reading.size = {Millimetres(size), Millimetres(std::sqrt(squares))};
    reading.seen = Millimetres(raw.seen);
}

/// Standard uncertainty of a mean of points that share their neighbours' pixels three by three.
double ofMean(double scatter, int count) {
    return scatter / std::sqrt(std::max(1.0, count / 3.0));
}

StandardSearch readBar(const CalibratedPhoto& photo, const CheckStandard& thing,
                       const RoughShape& shape, const View& view) {
    const auto edges = readBarEdges(photo, shape);
    if (!edges || edges->before.used < edges->before.tried / 3 ||
        edges->after.used < edges->after.tried / 3)
        return noEdges("The long edges of the thing cannot be read.");
    for (const BarSide* side : {&edges->before, &edges->after})
        if (2 * side->shadowed > side->tried)
            return hardShadow();
    const double width = edges->after.offset - edges->before.offset;
    const double overlap = std::min(edges->before.to, edges->after.to) -
                           std::max(edges->before.from, edges->after.from);
    const double taper = std::abs(edges->after.slope - edges->before.slope) * overlap;
    const double wavy = std::max(edges->before.scatter, edges->after.scatter);
    if (taper > 0.02 * width + edgeWidthOnCard(photo) / 2.0 ||
        wavy > 0.02 * width + edgeWidthOnCard(photo) / 4.0)
        return noEdges("The thing is bent, tapered or not smooth.");
    // Perpendicular to the fitted edges, at the middle of the part that both sides show.
    const double slope = (edges->before.slope + edges->after.slope) / 2.0;
    const double middle = (std::max(edges->before.from, edges->after.from) + overlap / 2.0);
    const double square = 1.0 / std::hypot(1.0, slope);
    const cv::Point2d normal = (edges->normal - slope * edges->along) * square;
    const double origin = (shape.centre - view.camera.foot).dot(normal);
    const auto place = [&](const BarSide& side) {
        return origin + square * (side.offset + (side.slope - slope) * middle);
    };
    const Raw bare = rawBar({place(edges->before), place(edges->after)}, thing, view);
    Raw raw = bare;
    raw.scatter = std::hypot(ofMean(edges->before.scatter, edges->before.used),
                             ofMean(edges->after.scatter, edges->after.used));
    StandardReading reading;
    reading.kind = thing.kind;
    reading.centre = {shape.centre.x, shape.centre.y};
    reading.length = Millimetres(overlap);
    reading.edgePoints = edges->before.used + edges->after.used;
    addUncertainty(reading, raw, photo, view);
    return reading;
}

StandardSearch readBall(const CalibratedPhoto& photo, const RoughShape& shape, const View& view) {
    const DiscEdge edge = readDiscEdge(photo, shape);
    if (static_cast<int>(edge.points.size()) < edge.tried / 2)
        return noEdges("The outline of the thing cannot be read.");
    if (5 * edge.shadowed > 2 * edge.tried)
        return hardShadow();
    const SeenBall ball = ballFromOutline(edge.points, view.camera);
    if (ball.used < edge.tried / 2 ||
        ball.scatter > 0.02 * ball.diameter + edgeWidthOnCard(photo) / 2.0)
        return noEdges("The outline of the thing is not that of a ball.");
    CameraPlace higher = view.camera;
    higher.height *= 1.0 + view.heightU;
    Raw raw;
    raw.size = ball.diameter;
    raw.seen = shape.width;
    raw.heightEffect = ballFromOutline(edge.points, higher).diameter - ball.diameter;
    raw.scatter = ofMean(ball.scatter, ball.used);
    StandardReading reading;
    reading.kind = StandardKind::ball;
    reading.centre = {ball.touches.x, ball.touches.y};
    reading.edgePoints = ball.used;
    addUncertainty(reading, raw, photo, view);
    return reading;
}

} // namespace

std::string_view standardName(StandardKind kind) {
    for (const auto& [known, name] : thingNames)
        if (known == kind)
            return name;
    throw std::logic_error("a kind of thing without a name");
}

StandardKind standardFromName(std::string_view name) {
    for (const auto& [kind, known] : thingNames)
        if (known == name)
            return kind;
    throw std::invalid_argument("unknown kind of thing: " + std::string(name));
}

StandardSearch readCheckStandard(const CalibratedPhoto& photo, const CheckStandard& thing) {
    const double size = thing.size.value.value();
    if (!(size > 0.0))
        throw std::logic_error("a known thing needs a size");
    const double least = thinnest * edgeWidthOnCard(photo);
    if (size < least)
        return StandardNotRead{
            fmt::format("Edges in this photo are {:.2f} mm wide: a thing of {:.2f} mm "
                        "is too thin to be read, {:.2f} mm is the least.",
                        edgeWidthOnCard(photo), size, least),
            "Come closer, hold the phone still, or take a thicker thing."};
    const View view{cameraPlaceOf(photo), photo.focalKnown ? heightKnown : heightGuessed};
    const Chosen chosen = chooseShape(roughShapes(photo, size), thing);
    if (const auto* none = std::get_if<StandardNotRead>(&chosen))
        return *none;
    const auto& shape = std::get<RoughShape>(chosen);
    return shape.bar ? readBar(photo, thing, shape, view) : readBall(photo, shape, view);
}

bool Conformity::agrees() const {
    return std::abs(off.value()) <= expanded.value();
}

Conformity conformityOf(const StandardReading& reading, const CheckStandard& thing) {
    const double u = std::hypot(reading.size.standardUncertainty.value(),
                                thing.size.standardUncertainty.value());
    return {reading.size.value - thing.size.value, Millimetres(2.0 * u)};
}

} // namespace swarfbook
