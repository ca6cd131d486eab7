// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_sample.h"

#include "assess/sample_basis_json.h"
#include "particles/count.h"
#include "particles/size_sampling.h"
#include "report/annotated_photo.h"
#include "report/basis_words.h"
#include "report/photo_view.h"

#include <algorithm>
#include <array>
#include <span>

namespace swarfbook {

namespace {

constexpr double annotatedWidthPx = 2000.0; // 300 dots per inch over the page's width
constexpr double plainWidthPx = 1100.0;
constexpr double cropSidePx = 400.0;
constexpr std::size_t cropsInARow = 6, cropsOfSlivers = 3, mostThreads = 2;

/// A round field that the largest piece fits in with a little air.
Millimetres fieldFor(const ReportedSample& sample) {
    constexpr std::array fields{2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 30.0, 50.0};
    double largest = 0.0;
    for (const ReportedPiece& piece : sample.largest)
        largest = std::max(largest, piece.particle.maxFeret.value.value());
    for (const double field : fields)
        if (field >= 1.15 * largest)
            return Millimetres(field);
    return Millimetres(1.15 * largest);
}

/// Without the doubtful ones.
void addLargest(std::vector<ReportedPiece>& to, std::vector<Particle> from, std::size_t most,
                bool inCoat) {
    std::erase_if(from, [](const Particle& piece) { return piece.mayBeNone(); });
    std::sort(from.begin(), from.end(), [](const Particle& a, const Particle& b) {
        return a.maxFeret.value > b.maxFeret.value;
    });
    if (from.size() > most)
        from.resize(most);
    for (Particle& particle : from)
        to.push_back({std::move(particle), inCoat, {}});
}

void addPictures(ReportedSample& sample, const cv::Mat& bgr, const Measurement& measurement) {
    const double width = windowOf(*measurement.card).width;
    AnnotationOptions marked;
    marked.straightenedAt =
        PixelsPerMillimetre(annotatedWidthPx / (width + 2.0 * marked.margin.value()));
    sample.annotated = annotatedPhoto(bgr, measurement, marked);
    AnnotationOptions plain;
    plain.margin = Millimetres(0.5);
    plain.marks = false;
    plain.legend = false;
    sample.plainPxPerMm = plainWidthPx / (width + 2.0 * plain.margin.value());
    plain.straightenedAt = PixelsPerMillimetre(sample.plainPxPerMm);
    sample.plain = annotatedPhoto(bgr, measurement, plain);
    const CropOptions crop{sample.cropField,
                           PixelsPerMillimetre(cropSidePx / sample.cropField.value()), true};
    for (ReportedPiece& piece : sample.largest)
        piece.crop = croppedPiece(bgr, measurement, piece.particle, crop);
}

} // namespace

namespace {

/// Some refusals name a file or a command, which are the workshop's own.
Refusal inWordsForCustomer(const Refusal& refusal) {
    if (refusal.reason == RefusalReason::notAPhoto)
        return {refusal.reason, "The file could not be read as a photo.", "Take the photo again."};
    if (refusal.reason == RefusalReason::findingDamaged)
        return {refusal.reason,
                "What was found in it can no longer be read in the workshop's book.",
                "The photo itself can be measured again."};
    return refusal;
}

} // namespace

ReportedSample reportedSample(const cv::Mat& bgr, const Measurement& measurement) {
    ReportedSample sample;
    sample.place = measurement.place;
    sample.sha256 = measurement.photo.sha256;
    sample.taken = measurement.photo.taken;
    if (measurement.refusal)
        sample.refusal = inWordsForCustomer(*measurement.refusal);
    if (sample.refusal || !measurement.card || !measurement.debris)
        return sample;
    sample.layout = measurement.card->layout;
    sample.serial = measurement.card->serial;
    sample.printScale = measurement.card->printScale;
    sample.tilt = measurement.card->tilt;
    sample.scaleUPercent = measurement.card->scaleUPercent;
    sample.debris = *measurement.debris;
    if (sample.debris.sizeSampling) { // by the very pieces that are counted here
        const std::span<const Particle> all(sample.debris.particles);
        sample.debris.sizeSampling = sizeSampling(all.first(piecesFound(sample.debris).fromFloor),
                                                  sample.debris.onWhiteCard);
    }
    sample.basis =
        basisSentences(measurement.basis, sample.debris, areaRelativeU(*measurement.card));
    sample.magnet = measurement.magnet;
    sample.afterMagnet = measurement.afterMagnet;
    sample.magnetNote = measurement.magnetNote;
    if (sample.magnet)
        addLargest(sample.largest, sample.magnet->slivers, cropsOfSlivers, true);
    std::vector<Particle> pieces = sample.debris.particles, threads = pieces;
    std::erase_if(pieces, [](const Particle& piece) { return piece.type == ParticleType::fibre; });
    std::erase_if(threads, [](const Particle& piece) { return piece.type != ParticleType::fibre; });
    addLargest(sample.largest, std::move(pieces), cropsInARow - sample.largest.size(), false);
    addLargest(sample.threads, std::move(threads), mostThreads, false);
    sample.cropField = fieldFor(sample);
    if (!bgr.empty())
        addPictures(sample, bgr, measurement);
    return sample;
}

cv::Mat windowPicture(const cv::Mat& bgr, const Measurement& measurement,
                      PixelsPerMillimetre scale) {
    AnnotationOptions options;
    options.straightenedAt = scale;
    options.letters = false;
    options.legend = false;
    return annotatedPhoto(bgr, measurement, options);
}

} // namespace swarfbook
