// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "base/picture_memory.h"
#include "benchmark/timing.h"
#include "card/calibrated_photo.h"
#include "debris/candidate.h"
#include "debris/measure_debris.h"
#include "debris/piece_features.h"
#include "photo/decode.h"

#include <fmt/format.h>
#include <opencv2/core/utility.hpp>

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <sys/resource.h>
#include <unistd.h>
#include <vector>

// Times the whole pipeline and its stages on photos, each as a ratio to decoding that very photo in
// the same run, so that the figures compare between machines. The models are loaded before, as for
// all photos of a command but the first, during whose reading they are loaded. Exit code 1 when
// a photo, decoding and all but the network, takes more than seven times its decoding, or a plain
// pad more than four times; or when all of it takes more than 22 times, a plain pad 12 times. Those
// are a second and 0.35 s on the two-core machine that they were set on, where a photo of a pan is
// decoded in 45 ms and one of a plain pad in 29 ms: what the network takes is spent on accuracy.
namespace {

using namespace swarfbook;
using swarfbook::test::secondsOf;
using swarfbook::test::secondsOfBoth;

/// Times decoding.
struct Allowed {
    double besideNetwork, whole;
};
constexpr Allowed ofAny{7.0, 22.0}, ofPlainPad{4.0, 12.0};
constexpr int repeats = 7;

double peakMegabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

struct Stage {
    std::string name;
    double seconds = 0.0;
};

std::vector<Stage> stagesOf(const Photo& photo, const AssessData& data, bool onWhiteCard) {
    std::vector<Stage> stages;
    const auto time = [&](const std::string& name, const auto& work) {
        stages.push_back({name, secondsOf(work, repeats)});
        return work();
    };
    const auto card = time("find card", [&] { return findCard(photo, data.layouts); });
    time("read sharpness", [&] { return readSharpness(photo.bgr, card.value()); });
    time("read light", [&] { return readPaperLight(photo.bgr, card.value()); });
    const auto calibrated = calibratePhoto(photo, data.layouts, std::nullopt);
    const auto window =
        time("prepare window", [&] { return prepareWindow(*calibrated, onWhiteCard); });
    const WindowCrop& crop = window.value().crop;
    const DebrisModels& models = data.models.get();
    const PieceMaps maps = time("network", [&] { return models.pieces.judge(*calibrated, crop); });
    const auto pieces = time("outline", [&] { return findPieces(maps, crop, models.contacts); });
    const auto features = time("features", [&] {
        return featuresOf({*calibrated, crop, maps, surfaceNoise(crop)}, pieces);
    });
    time("judge, to particles", [&] {
        std::vector<Particle> particles(pieces.size());
        const auto measureSome = [&](const cv::Range& some) {
            for (int j = some.start; j < some.end; ++j)
                if (const auto i = static_cast<std::size_t>(j);
                    models.trust.judge(features[i]).debris >= models.trust.debrisThreshold())
                    particles[i] = particleFromOutline(*calibrated, crop, pieces[i],
                                                       models.trust.sizeCorrection(features[i]));
        };
        cv::parallel_for_(cv::Range(0, static_cast<int>(pieces.size())), measureSome);
        return particles;
    });
    time("debris, all of it", [&] {
        return measureDebris(*calibrated, *window, models, {onWhiteCard, {}});
    });
    return stages;
}

struct Task {
    std::filesystem::path file;
    AssessOptions options;
    Allowed most = ofAny;
};

/// "pan:photo.jpg", "photo.jpg" (a white card) or "plain:photo.jpg" (a white card with little on
/// it).
Task taskOf(const std::string& word) {
    Task task;
    const auto colon = word.find(':');
    task.file = colon == std::string::npos ? word : word.substr(colon + 1);
    const std::string place = colon == std::string::npos ? "pad" : word.substr(0, colon);
    if (place == "plain")
        task.most = ofPlainPad;
    else
        task.options.place = placeFromName(place);
    return task;
}

/// Prints how one time stands against what is allowed. @return whether it was short enough.
bool holds(const std::string& what, double times, double most) {
    std::cout << fmt::format("  {}: {} {:.2f} x decoding, at most {:.1f} allowed\n",
                             times <= most ? "good" : "TOO SLOW", what, times, most);
    return times <= most;
}

/// Prints one photo's table. @return whether its whole time was short enough.
bool benchmark(const Task& task, const AssessData& data) {
    const std::filesystem::path& file = task.file;
    const AssessOptions& options = task.options;
    const auto bytes = readPhotoFile(file).value();
    const Photo photo = decodePhoto(bytes, file.filename()).value();
    const double megapixels = static_cast<double>(photo.bgr.total()) / 1e6;
    const Measurement measurement = assessPhoto(photo, data, options);
    const std::string outcome =
        measurement.refusal ? "refused: " + std::string(reasonName(measurement.refusal->reason))
                            : fmt::format("{} pieces", measurement.debris->particles.size());
    std::cout << fmt::format("\n{} ({:.1f} megapixels, {})\n", file.filename().string(), megapixels,
                             outcome);
    const auto decode = [&] { return decodePhoto(bytes, file.filename()); };
    const auto assess = [&] { return assessPhoto(photo, data, options); };
    const auto [decoding, assessing] = secondsOfBoth(decode, assess, repeats);
    const auto line = [&, decoding = decoding](const std::string& name, double seconds) {
        std::cout << fmt::format("  {:<22} {:>8.1f} ms {:>7.2f} x decoding\n", name, 1e3 * seconds,
                                 seconds / decoding);
    };
    line("decode", decoding);
    double network = 0.0;
    if (!measurement.refusal)
        for (const Stage& stage : stagesOf(photo, data, measurement.debris->onWhiteCard)) {
            line(stage.name, stage.seconds);
            network += stage.name == "network" ? stage.seconds : 0.0;
        }
    line("all but decoding", assessing);
    line("whole", decoding + assessing);
    const double whole = decoding + assessing;
    const bool besideHolds =
        holds("all but the network", (whole - network) / decoding, task.most.besideNetwork);
    return holds("whole", whole / decoding, task.most.whole) && besideHolds;
}

/// The memory settings that swarfbook starts its own measuring with are read at a program's start.
void startAgainAsSwarfbookDoes(char** words) {
    if (std::getenv("GLIBC_TUNABLES") != nullptr)
        return;
    preparePictureMemory();
    execv("/proc/self/exe", words);
}

} // namespace

int main(int argc, char** argv) {
    try {
        if (argc < 2) {
            std::cerr << "usage: swarfbook_benchmark [PLACE:]PHOTO...\n"
                         "PLACE may be plain: a pad with little on it\n";
            return 2;
        }
        startAgainAsSwarfbookDoes(argv);
        const AssessData data = loadAssessData();
        bool allQuick = true;
        for (int i = 1; i < argc; ++i)
            allQuick = benchmark(taskOf(argv[i]), data) && allQuick;
        std::cout << fmt::format("\npeak memory {:.0f} MB\n", peakMegabytes());
        return allQuick ? 0 : 1;
    } catch (const std::exception& e) {
        std::cerr << "swarfbook_benchmark: " << e.what() << "\n";
        return 3;
    }
}
