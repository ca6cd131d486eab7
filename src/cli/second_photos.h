// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/parsed_options.h"
#include "entry/measure_for_book.h"

#include <boost/program_options/options_description.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// The names that --blank, --after-magnet and --second-light give, "" where not given.
struct SecondPhotoNames {
    std::string cleanReference, afterMagnet, secondLight;
};

/// --blank, --after-magnet and --second-light.
/// @param ending  of each option's help: "; kept in the book", or nothing.
void addSecondPhotoOptions(boost::program_options::options_description& options,
                           const std::string& ending = "");

/// The names as typed. UsageError where they do not go with the place or with each other: fuzz on a
/// magnet is measured in one light and not swept, and a sweep's two photos are measured alike.
SecondPhotoNames secondPhotoNames(const ParsedOptions& words, Place place);

/// A sweep and a second light belong to one photo. UsageError where more are given.
void requireOnePhoto(const SecondPhotoNames& names, std::size_t given);

/// The second photos that a photo of the book is measured with, and their bytes until they are
/// kept.
class SecondPhotosToKeep {
  public:
    /// Reads the files into `how`. EvidenceRefused, with the reason, if a file is not a photo.
    void read(const SecondPhotoNames& names, HowMeasured& how);
    /// Keeps those that were read as originals of the book.
    void keep(Book& book, const HowMeasured& how) const;

  private:
    std::vector<std::byte> cleanReference_, afterMagnet_, secondLight_;
};

} // namespace swarfbook::cli
