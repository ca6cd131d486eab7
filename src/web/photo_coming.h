// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "web/pages.h"

#include <nlohmann/json.hpp>

#include <functional>
#include <optional>
#include <string>

/// What the pages that take photos share. Checked: tests/web/upload_test.cpp.
namespace swarfbook::web {

/// The photo that is sent, as its script names it. UsageError where it has no size.
ComingPhoto comingPhotoOf(const Asked& asked);

/// What `measure` gives, called outside of the book's lock, so that others go on meanwhile, and for
/// one photo at a time. It runs at a lower priority than pages are answered with.
Measurement
measuredForPages(Workshop& workshop,
                 const std::function<Measurement(const Book&, const AssessData&)>& measure);

/// What `answer` gives, after which the upload is done with. It is done with, too, where the
/// evidence is refused; after any other failure it stays, so that the script can finish it again.
Answer answeredOnce(Workshop& workshop, const ComingPhoto& coming,
                    const std::function<Answer()>& answer);

/// Its name as its user calls it, as a book takes it.
std::string photoNameOf(const Asked& asked);
/// The check bar of a card without a code, mm; nothing if it was left empty. UsageError as
/// checkBarTyped().
std::optional<double> barTyped(const Asked& asked);
/// The field for it.
std::string barField();

/// What the script is told of a photo that the book has now. @param before  begins the sentence.
nlohmann::json toldOf(const StoredPhoto& photo, const std::string& before = "");
/// A photo that was refused, with what to do.
Answer refusedPhoto(const Refusal& refusal);
std::string jsonText(const nlohmann::json& document);

/// How to hold phone and card, as a drawing and in words; it stands below what is tapped.
std::string howToHold();
/// The buttons that take a photo.
std::string photoButtons();
/// Where the script says what became of the photos.
std::string sentPhotos();

} // namespace swarfbook::web
