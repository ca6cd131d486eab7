// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/contact_trust.h"

#include "base/data_file.h"

#include <cmath>

namespace swarfbook {

ContactTrust ContactTrust::load(const std::filesystem::path& file) {
    return readDataFile("The trust in contacts", file, [](const nlohmann::json& document) {
        checkFormat(document, "swarfbook contact trust 1");
        checkFeatures(document, contactFeatureNames());
        ContactTrust trust;
        trust.two_ = networkFrom(document.at("two_pieces"), contactFeatureCount, 1);
        trust.threshold_ = probabilityFrom(document.at("two_pieces_probability"));
        return trust;
    });
}

double ContactTrust::twoPieces(const ContactFeatures& features) const {
    return 1.0 / (1.0 + std::exp(-two_.answer(features).front()));
}

} // namespace swarfbook
