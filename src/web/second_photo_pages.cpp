// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/photo_file.h"
#include "base/errors.h"
#include "entry/measured_before.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>

namespace swarfbook::web {
namespace {

/// What a second photo of the same place shows.
enum class SecondShows { afterMagnet, cleanedPlace, secondLight };

SecondShows shownBy(const Asked& asked) {
    const std::string as = asked.said("as");
    if (as == "after-magnet")
        return SecondShows::afterMagnet;
    if (as == "cleaned")
        return SecondShows::cleanedPlace;
    if (as == "second-light")
        return SecondShows::secondLight;
    throw UsageError("Say what the second photo shows.");
}

struct SecondWords {
    std::string title, how, as;
};

SecondWords wordsOf(SecondShows shows) {
    switch (shows) {
    case SecondShows::afterMagnet:
        return {"Photo after a magnet",
                "Draw a magnet over the place. Then photograph it again, the card on the same "
                "spot: pieces that are gone are magnetic.",
                "after-magnet"};
    case SecondShows::secondLight:
        return {"Photo in a second light",
                "Leave debris, card and phone where they are. Move the lamp to the other side and "
                "photograph again: then shadows and highlights are not counted, and metal shows "
                "by its flashes.",
                "second-light"};
    case SecondShows::cleanedPlace:
        break;
    }
    return {"Photo of the place cleaned",
            "Clean the place. Then photograph it again, the card on the same spot: what both "
            "photos show is not counted as debris.",
            "cleaned"};
}

StoredPhoto firstPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const StoredPhoto first = workshop.book.read(
        [&](const Book& book) { return book.photo(numberOf(asked.said("of"))); });
    if (first.visitId != visit)
        throw UsageError("That photo is of another visit.");
    if (!mayHaveSecond(first))
        throw UsageError("A second photo goes with debris of another place than the magnet, once "
                         "it was measured.");
    return first;
}

/// The first photo measured anew, with the second.
struct WithSecond {
    HowMeasured how;
    Measurement found;
};

WithSecond measuredWith(Workshop& workshop, const StoredPhoto& first, SecondShows shows,
                        PhotoFile second) {
    WithSecond with;
    with.found = measuredForPages(workshop, [&](const Book& book, const AssessData& data) {
        KeptSecondPhotos kept(book);
        with.how = howMeasuredBefore(kept, first);
        if (shows == SecondShows::afterMagnet)
            with.how.afterMagnet = typedAfterMagnet(std::move(second));
        else if (shows == SecondShows::secondLight)
            with.how.secondLight = typedSecondLight(std::move(second));
        else
            with.how.cleanReference = typedCleanReference(std::move(second));
        requireFitting({with.how.afterMagnet != nullptr, with.how.secondLight != nullptr},
                       with.how.place);
        return measureForBook(book, photoFrom(book.originalBytes(first.sha256), first.fileName),
                              data, with.how);
    });
    return with;
}

/// A second photo as it came.
struct SecondPhoto {
    std::string name;
    std::vector<std::byte> bytes;
};

Answer keptWith(Workshop& workshop, const StoredPhoto& first, const WithSecond& with,
                const SecondPhoto& second) {
    const StoredPhoto now = workshop.book.write([&](Book& book) {
        BookTransaction transaction = book.begin();
        const StoredPhoto there = book.photo(first.id);
        if (there.visitId != first.visitId || there.place != first.place)
            throw UsageError("The photo was moved meanwhile, so nothing was kept. Send the second "
                             "one again.");
        book.keepCleanReference(second.name, second.bytes);
        book.addFinding(first.id, with.found, optionsText(with.how, assessOptions(book, with.how)),
                        programVersion());
        transaction.commit();
        return book.photo(first.id);
    });
    return json(jsonText(toldOf(now)));
}

} // namespace

bool mayHaveSecond(const StoredPhoto& photo) {
    return photo.place != Place::magnet && !photo.measurement.refusal && photo.measurement.debris;
}

Answer secondPhotoPage(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const SecondShows shows = shownBy(asked);
    const StoredPhoto first = firstPhoto(workshop, visit, asked);
    const SecondWords words = wordsOf(shows);
    const std::string body = fmt::format(
        "<p>{}</p><form id=\"shoot\" data-visit=\"{}\"><input type=\"hidden\" name=\"of\" "
        "value=\"{}\"><input type=\"hidden\" name=\"as\" value=\"{}\"><input type=\"hidden\" "
        "name=\"place\" value=\"{}\">{}</form>{}{}",
        words.how, visit, first.id, words.as, placeName(first.place), photoButtons(), sentPhotos(),
        howToHold());
    return page({words.title, body, fmt::format("/photo/{}", first.id),
                 fmt::format("Photo {}", first.id), "shoot.js"});
}

Answer finishSecondPhoto(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    const ComingPhoto coming = comingPhotoOf(asked);
    const SecondShows shows = shownBy(asked);
    const StoredPhoto first = firstPhoto(workshop, visit, asked);
    if (coming.sha256 == first.sha256)
        throw UsageError("This is the first photo itself. Take a second one.");
    const SecondPhoto second{photoNameOf(asked), workshop.uploads.whole(coming)};
    return answeredOnce(workshop, coming, [&] {
        const WithSecond with =
            measuredWith(workshop, first, shows, photoFrom(second.bytes, second.name));
        return with.found.refusal ? refusedPhoto(*with.found.refusal)
                                  : keptWith(workshop, first, with, second);
    });
}

} // namespace swarfbook::web
