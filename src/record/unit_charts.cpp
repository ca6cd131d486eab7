// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/unit_charts.h"

#include "base/errors.h"
#include "base/text.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> chartsIn(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code none;
    // A link would lead out of the book: neither the folder nor a chart is one.
    if (fs::is_symlink(fs::symlink_status(folder, none)))
        return files;
    for (const auto& entry : fs::directory_iterator(folder, none))
        if (entry.path().extension() == ".json" &&
            entry.symlink_status(none).type() == fs::file_type::regular)
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

/// The unit that a file describes; "" if it cannot be read.
std::string unitOf(const fs::path& file) {
    try {
        return loadApplicationChart(file).unit;
    } catch (const ToolError&) {
        return "";
    }
}

} // namespace

fs::path unitsFolder(const fs::path& bookFolder) {
    return bookFolder / "units";
}

std::string chartFileName(const std::string& unit) {
    std::string name;
    for (const char c : lowered(unit)) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                           static_cast<unsigned char>(c) >= 0x80;
        if (plain)
            name += c;
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (!name.empty() && name.back() == '-')
        name.pop_back();
    if (name.empty())
        throw UsageError(
            fmt::format("\"{}\" is not the name of a unit: it needs a letter or a digit.", unit));
    return name + ".json";
}

std::optional<fs::path> findChart(const ChartFolders& folders, const std::string& unit) {
    if (lowered(unit).find_first_of("abcdefghijklmnopqrstuvwxyz0123456789") == std::string::npos)
        return std::nullopt;
    for (const fs::path& folder : {folders.ofBook, folders.shipped}) {
        const std::vector<fs::path> files = chartsIn(folder);
        for (const fs::path& file : files)
            if (file.filename() == chartFileName(unit))
                return file;
        for (const fs::path& file : files)
            if (lowered(unitOf(file)) == lowered(unit))
                return file;
    }
    return std::nullopt;
}

std::vector<fs::path> allCharts(const ChartFolders& folders) {
    std::vector<fs::path> all = chartsIn(folders.ofBook);
    for (const fs::path& file : chartsIn(folders.shipped))
        if (std::none_of(all.begin(), all.end(),
                         [&](const fs::path& own) { return own.filename() == file.filename(); }))
            all.push_back(file);
    return all;
}

UnitAtHand unitAtHand(const ChartFolders& folders, const std::string& unit) {
    if (unit.empty())
        return {std::nullopt, "The book does not say which transmission the vehicle has; enter it "
                              "with swarfbook vehicle unit LABEL --unit NAME."};
    const auto file = findChart(folders, unit);
    if (!file)
        return {std::nullopt,
                fmt::format("There is no application chart of {} yet; swarfbook unit new \"{}\" "
                            "asks for it.",
                            unit, unit)};
    try {
        UnitAtHand found{loadApplicationChart(*file), ""};
        if (found.chart->gears.empty())
            return {std::nullopt, fmt::format("The chart of {} has no gears.", unit)};
        return found;
    } catch (const ToolError& wrong) {
        return {std::nullopt,
                fmt::format("The application chart of {} cannot be read or is not sound; swarfbook "
                            "unit check \"{}\" says what is wrong with it.",
                            unit, unit),
                wrong.what()};
    }
}

namespace {

/// The chart of a unit; reports what is wrong with its file.
UnitAtHand unitFor(const Book& book, const fs::path& models, const std::string& unit) {
    UnitAtHand found = unitAtHand({unitsFolder(book.folder()), models / "units"}, unit);
    if (!found.detail.empty())
        book.tell(found.detail);
    return found;
}

} // namespace

Evidence evidenceWithUnit(const Book& book, std::int64_t visitId, const fs::path& models) {
    Evidence evidence = evidenceOfVisit(book, visitId);
    const Vehicle vehicle = book.vehicle(book.visit(visitId).vehicleId);
    const UnitAtHand found = unitFor(book, models, vehicle.unit);
    evidence.noUnit = found.none;
    if (found.chart)
        evidence.unit = {*found.chart, loadBenchTests(models / "bench-tests.json")};
    return evidence;
}

Evidence evidenceWithUnit(const Book& book, std::int64_t visitId, const fs::path& models,
                          const std::string& unit) {
    Evidence evidence = evidenceOfVisit(book, visitId);
    const UnitAtHand found = unitFor(book, models, unit);
    if (!found.chart)
        throw UsageError(found.none);
    evidence.unit = {*found.chart, loadBenchTests(models / "bench-tests.json")};
    return evidence;
}

} // namespace swarfbook
