// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/sample_basis_words.h"

#include "entry/sample_typed.h"

namespace swarfbook::cli {

void addSampleOptions(boost::program_options::options_description& options) {
    namespace po = boost::program_options;
    auto add = options.add_options();
    add("side", po::value<std::string>(),
        "place filter: which side of the media the debris lies on, dirty or clean; the clean side "
        "weighs more, and the two are never compared");
    add("media-area", po::value<std::string>(),
        "place filter: area of the whole opened media, such as 1200cm2 or 40x30cm, to say what is "
        "on all of it");
    add("volume", po::value<std::string>(),
        "place strained: how much fluid went through the white paper, such as 100ml, to say how "
        "many pieces 100 ml hold");
}

SampleBasis sampleBasisOf(const ParsedOptions& words, Place place) {
    return sampleBasisTyped({maybeTextOf(words, "side"), maybeTextOf(words, "media-area"),
                             maybeTextOf(words, "volume")},
                            place);
}

} // namespace swarfbook::cli
