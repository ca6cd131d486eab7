// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/card_facts.h"

#include <algorithm>
#include <stdexcept>

namespace swarfbook {

CardFacts cardFactsOf(const CalibratedPhoto& photo, const std::string& serial) {
    CardFacts facts;
    const CardSighting& card = photo.card;
    facts.layout = card.layout.name;
    facts.serial = photo.serial.empty() ? serial : photo.serial;
    facts.printScale = photo.printScale;
    facts.markersUsed = card.markersUsed;
    facts.residual = card.residual;
    facts.tilt = card.tilt;
    facts.scale = photo.trueScale();
    facts.scaleUPercent = card.scaleUPercent;
    facts.mapping = photo.surface;
    const CardRect& w = card.layout.window;
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 5; ++i) {
            const PointOnCard p{w.x + w.width * i / 4.0, w.y + w.height * j / 4.0};
            facts.grid.push_back({{p.x * photo.printScale.value, p.y * photo.printScale.value},
                                  card.mapping.photoFromCard(p)});
        }
    return facts;
}

CardRect windowOf(const CardFacts& card) {
    if (card.grid.size() != 25)
        throw std::logic_error("a measured photo has a grid of 25 points");
    const PointOnCard first = card.grid.front().onCard;
    double left = first.x, right = first.x, top = first.y, bottom = first.y;
    for (const GridPoint& point : card.grid) {
        left = std::min(left, point.onCard.x);
        right = std::max(right, point.onCard.x);
        top = std::min(top, point.onCard.y);
        bottom = std::max(bottom, point.onCard.y);
    }
    return {left, top, right - left, bottom - top};
}

} // namespace swarfbook
