// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/threads.h"

#include "debris/connected_parts.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <deque>
#include <iterator>
#include <numbers>
#include <optional>
#include <vector>

namespace swarfbook {
namespace {

constexpr float shownFrom = 0.2F * 255.0F; // of the map: a part of a thread, if only suspected
constexpr uchar enteredAs = 150;           // of the map: surer than not
constexpr int fewestPx = 6;
constexpr double leastLengthPx = 8.0;
constexpr double thinnestRatio = 4.0; // length over width
constexpr double widestEdges = 2.0;   // edge widths that a thread is wide at most
constexpr double stepEdges = 4.5;     // edge widths that are looked along at once
constexpr double turnAtMost = std::numbers::pi / 5;
constexpr int ways = 7;
constexpr double bentCounts = 0.2;  // so much less a way on that bends as far as it may
constexpr double besideEdges = 1.7; // from a thread to where its surroundings are read
constexpr double leastOfOwn = 0.4;  // of the thread's own difference in light
constexpr double leastNoise = 1.4;  // times the surface's noise
constexpr int mayMiss = 1;          // steps
constexpr double furthest = 3.0;    // times the part's own length, at either end

/// A thin part of the map from end to end.
struct Thread {
    std::vector<cv::Point> path; ///< pixels of the crop, one beside the other
    double width = 1.0;
    double difference = 0.0; ///< codes that it is darker (brighter: below 0) than beside it
};

/// Light of the surface less that of the photo, codes.
double darkness(const ContrastField& field, const cv::Point2d& at) {
    const int x = static_cast<int>(std::floor(at.x)), y = static_cast<int>(std::floor(at.y));
    if (x < 0 || y < 0 || x + 1 >= field.smooth.cols || y + 1 >= field.smooth.rows)
        return 0.0;
    const double fx = at.x - x, fy = at.y - y;
    const auto one = [&](int dx, int dy) {
        const auto& p = field.smooth.at<cv::Vec3b>(y + dy, x + dx);
        const auto& s = field.background.at<cv::Vec3b>(y + dy, x + dx);
        return ((s[0] - p[0]) + 2.0 * (s[1] - p[1]) + (s[2] - p[2])) / 4.0;
    };
    return (1 - fy) * ((1 - fx) * one(0, 0) + fx * one(1, 0)) +
           fy * ((1 - fx) * one(0, 1) + fx * one(1, 1));
}

/// What threads are looked for in.
struct LineSight {
    const ContrastField& field;
    double edge = 1.0; ///< px
};

/// How much darker it is along a line than on both sides of it.
double differenceAlong(const LineSight& sight, const cv::Point2d& from, const cv::Point2d& way,
                       double length) {
    const cv::Point2d across = cv::Point2d(-way.y, way.x) * (besideEdges * sight.edge);
    double sum = 0.0;
    const int n = std::max(2, static_cast<int>(std::lround(length)));
    for (int k = 1; k <= n; ++k) {
        const cv::Point2d p = from + way * (length * k / n);
        sum += darkness(sight.field, p) -
               0.5 * (darkness(sight.field, p + across) + darkness(sight.field, p - across));
    }
    return sum / n;
}

/// Pixels of a mask by their distance from `start` within it. @return the last, and each one's
/// neighbour on the way back.
cv::Point furthestFrom(const cv::Point& start, const cv::Mat& mask, cv::Mat& back) {
    back = cv::Mat(mask.size(), CV_32S, cv::Scalar(-1));
    std::deque<cv::Point> next{start};
    back.at<int>(start) = start.y * mask.cols + start.x;
    cv::Point last = start;
    while (!next.empty()) {
        last = next.front();
        next.pop_front();
        constexpr int neighbours[8][2] = {{1, 0}, {-1, 0}, {0, 1},  {0, -1},
                                          {1, 1}, {1, -1}, {-1, 1}, {-1, -1}};
        for (const auto& d : neighbours) {
            const cv::Point p = last + cv::Point(d[0], d[1]);
            if (!p.inside({{0, 0}, mask.size()}) || mask.at<uchar>(p) == 0 || back.at<int>(p) >= 0)
                continue;
            back.at<int>(p) = last.y * mask.cols + last.x;
            next.push_back(p);
        }
    }
    return last;
}

cv::Point2d wayAtEnd(const std::vector<cv::Point>& path, bool atFront) {
    const auto reach = std::min<std::size_t>(path.size() - 1, 10);
    const cv::Point end = atFront ? path.front() : path.back();
    const cv::Point inner = atFront ? path[reach] : path[path.size() - 1 - reach];
    const cv::Point2d d = end - inner;
    return d / std::max(1e-6, cv::norm(d));
}

/// Pixels from end to end of the longest way through a mask.
std::vector<cv::Point> spineOf(const cv::Mat& mask, const cv::Point& any) {
    cv::Mat back;
    const cv::Point one = furthestFrom(any, mask, back);
    cv::Point at = furthestFrom(one, mask, back);
    std::vector<cv::Point> path;
    for (; at != one; at = {back.at<int>(at) % mask.cols, back.at<int>(at) / mask.cols})
        path.push_back(at);
    path.push_back(one);
    return path;
}

double lengthOf(const std::vector<cv::Point>& path) {
    double length = 1.0;
    for (std::size_t i = 1; i < path.size(); ++i)
        length += cv::norm(path[i] - path[i - 1]);
    return length;
}

bool isThin(double area, double length, double edge) {
    const double width = area / length;
    return length >= leastLengthPx && length >= thinnestRatio * width &&
           width <= widestEdges * edge;
}

std::optional<Thread> threadFrom(const ConnectedPart& part, const LineSight& sight) {
    if (std::max(part.box.width, part.box.height) < leastLengthPx ||
        part.area > 0.6 * part.box.area() + 20)
        return {};
    const PixelRun& run = part.runs.front();
    Thread thread;
    thread.path = spineOf(part.maskIn(part.box), {run.from - part.box.x, run.row - part.box.y});
    for (cv::Point& p : thread.path)
        p += part.box.tl();
    const double length = lengthOf(thread.path);
    thread.width = part.area / length;
    if (!isThin(part.area, length, sight.edge))
        return {};
    double sum = 0.0;
    int n = 0;
    for (std::size_t i = 4; i < thread.path.size(); i += 4, ++n) {
        const cv::Point2d from = thread.path[i - 4], d = cv::Point2d(thread.path[i]) - from;
        sum += differenceAlong(sight, from, d / std::max(1e-6, cv::norm(d)), cv::norm(d));
    }
    thread.difference = sum / std::max(1, n);
    return thread;
}

cv::Point2d turned(const cv::Point2d& way, double by) {
    return {way.x * std::cos(by) - way.y * std::sin(by),
            way.x * std::sin(by) + way.y * std::cos(by)};
}

cv::Point pixelAt(const cv::Point2d& p) {
    return {static_cast<int>(std::lround(p.x)), static_cast<int>(std::lround(p.y))};
}

/// The way on from a place on which most shows.
struct WayOn {
    cv::Point2d way;
    double difference = 0.0; ///< codes, as the thread's own counts
};

WayOn bestWayOn(const LineSight& sight, const cv::Point2d& at, const cv::Point2d& way,
                double sign) {
    WayOn best{way, 0.0};
    double most = -1e9;
    for (int k = 0; k < ways; ++k) {
        const double turn = turnAtMost * (2.0 * k / (ways - 1) - 1.0);
        const cv::Point2d to = turned(way, turn);
        const double difference = sign * differenceAlong(sight, at, to, stepEdges * sight.edge);
        const double worth = difference * (1.0 - bentCounts * std::abs(turn) / turnAtMost);
        if (worth > most) {
            most = worth;
            best = {to, difference};
        }
    }
    return best;
}

/// What lies in line with a thread beyond one of its ends, the end first.
std::vector<cv::Point2d> follow(const Thread& thread, bool atFront, const LineSight& sight,
                                const cv::Mat& parts) {
    const double sign = thread.difference < 0 ? -1.0 : 1.0;
    const double halfStep = 0.5 * stepEdges * sight.edge;
    const cv::Rect window({0, 0}, sight.field.smooth.size());
    const auto most =
        static_cast<std::size_t>(furthest * static_cast<double>(thread.path.size()) / halfStep + 1);
    cv::Point2d at = atFront ? thread.path.front() : thread.path.back();
    cv::Point2d way = wayAtEnd(thread.path, atFront);
    std::vector<cv::Point2d> found{at};
    std::size_t shownUpTo = 1;
    int missed = 0;
    while (found.size() < most) {
        const WayOn on = bestWayOn(sight, at, way, sign);
        const cv::Point here = pixelAt(at);
        const double noise = sight.field.noiseAt(here.x, here.y);
        const bool shows =
            on.difference >= std::max(leastOfOwn * std::abs(thread.difference), leastNoise * noise);
        if (!shows && ++missed > mayMiss)
            break;
        way = shows ? on.way : way;
        at += way * halfStep;
        if (!pixelAt(at).inside(window))
            break;
        found.push_back(at);
        const bool meets = found.size() > 2 && parts.at<uchar>(pixelAt(at)) != 0;
        if (shows || meets) {
            missed = 0;
            shownUpTo = found.size();
        }
        if (meets)
            break;
    }
    found.resize(shownUpTo);
    return found;
}

/// Makes the map sure along a line, within the window.
void enterLine(PieceMap& map, const WindowCrop& crop, const std::vector<cv::Point>& line,
               int thickness) {
    const cv::Rect tight = cv::boundingRect(line);
    const cv::Rect box = cv::Rect(tight.x - thickness, tight.y - thickness,
                                  tight.width + 2 * thickness, tight.height + 2 * thickness) &
                         cv::Rect({0, 0}, map.piece.size());
    cv::Mat drawn(box.size(), CV_8U, cv::Scalar(0));
    for (std::size_t i = 1; i < line.size(); ++i)
        cv::line(drawn, line[i - 1] - box.tl(), line[i] - box.tl(), cv::Scalar(enteredAs),
                 thickness);
    cv::Mat target = map.piece(box);
    cv::max(target, drawn & crop.inside(box), target);
}

} // namespace

bool isThread(const cv::Mat& mask, double edge) {
    const int wide = static_cast<int>(std::ceil(widestEdges * edge)) + 3;
    cv::Mat core;
    cv::erode(mask, core, cv::Mat::ones(wide, wide, CV_8U));
    if (cv::countNonZero(core) > 0)
        return false;
    std::vector<cv::Point> pixels;
    cv::findNonZero(mask, pixels);
    return !pixels.empty() && isThin(static_cast<double>(pixels.size()),
                                     lengthOf(spineOf(mask, pixels.front())), edge);
}

void enterThreads(PieceMap& map, const WindowCrop& crop, const ContrastField& field, double edge) {
    cv::Mat shown = map.piece > shownFrom;
    shown &= crop.inside;
    const LineSight sight{field, edge};
    for (const ConnectedPart& part : ConnectedParts(shown, fewestPx)) {
        const auto thread = threadFrom(part, sight);
        if (!thread)
            continue;
        const auto before = follow(*thread, true, sight, shown);
        const auto after = follow(*thread, false, sight, shown);
        if (before.size() + after.size() <= 2)
            continue;
        std::vector<cv::Point> line;
        std::transform(before.rbegin(), before.rend(), std::back_inserter(line), pixelAt);
        line.insert(line.end(), thread->path.rbegin(), thread->path.rend());
        std::transform(after.begin(), after.end(), std::back_inserter(line), pixelAt);
        enterLine(map, crop, line, std::clamp(static_cast<int>(std::lround(thread->width)), 1, 3));
    }
}

} // namespace swarfbook
