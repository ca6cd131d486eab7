// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/second_photos.h"

#include "base/errors.h"
#include "photo/decode.h"

#include <fmt/format.h>

#include <filesystem>

namespace po = boost::program_options;
namespace fs = std::filesystem;

namespace swarfbook::cli {
namespace {

using TypedPhoto = std::shared_ptr<const PhotoFile> (*)(PhotoFile);

/// Null, and no bytes, where no name was given.
std::shared_ptr<const PhotoFile> readSecond(const std::string& name, TypedPhoto typed,
                                            std::vector<std::byte>& kept) {
    if (name.empty())
        return nullptr;
    const fs::path file(name);
    auto bytes = readPhotoFile(file);
    auto photo = typed(photoFrom(bytes, file.filename().string()));
    kept = std::move(*bytes);
    return photo;
}

} // namespace

void addSecondPhotoOptions(po::options_description& options, const std::string& ending) {
    auto add = options.add_options();
    const auto help = [&](const std::string& words) { return words + ending; };
    add("blank", po::value<std::string>(),
        help("a photo of the same place, cleaned, the card laid on the same spot: what it shows as "
             "well (scratches, stampings, stains) is not debris")
            .c_str());
    add("after-magnet", po::value<std::string>(),
        help("a photo of the same place after a magnet was drawn over it: pieces that are gone are "
             "magnetic, pieces that are left are not")
            .c_str());
    add("second-light", po::value<std::string>(),
        help("a photo of the same scene from the same place, the lamp alone moved to the other "
             "side: then shadows and highlights are not counted, and metal shows by its flashes")
            .c_str());
}

SecondPhotoNames secondPhotoNames(const ParsedOptions& words, Place place) {
    SecondPhotoNames names{fileNameOf(words, "blank"), fileNameOf(words, "after-magnet"),
                           fileNameOf(words, "second-light")};
    requireFitting({!names.afterMagnet.empty(), !names.secondLight.empty()}, place);
    return names;
}

void requireOnePhoto(const SecondPhotoNames& names, std::size_t given) {
    if (given == 1)
        return;
    if (!names.afterMagnet.empty())
        throw UsageError(fmt::format("A magnet was drawn over one place: give one photo of it with "
                                     "--after-magnet, not {}.",
                                     given));
    if (!names.secondLight.empty())
        throw UsageError(fmt::format("The second light falls on one scene: give one photo of it "
                                     "with --second-light, not {}.",
                                     given));
}

void SecondPhotosToKeep::read(const SecondPhotoNames& names, HowMeasured& how) {
    how.cleanReference = readSecond(names.cleanReference, typedCleanReference, cleanReference_);
    how.afterMagnet = readSecond(names.afterMagnet, typedAfterMagnet, afterMagnet_);
    how.secondLight = readSecond(names.secondLight, typedSecondLight, secondLight_);
}

void SecondPhotosToKeep::keep(Book& book, const HowMeasured& how) const {
    if (keepsCleanReference(how))
        book.keepCleanReference(how.cleanReference->file, cleanReference_);
    if (how.afterMagnet)
        book.keepCleanReference(how.afterMagnet->file, afterMagnet_);
    if (how.secondLight)
        book.keepCleanReference(how.secondLight->file, secondLight_);
}

} // namespace swarfbook::cli
