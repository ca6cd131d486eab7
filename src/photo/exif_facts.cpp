// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/exif_facts.h"

#include "base/sha256.h"

#include <libexif/exif-data.h>

#include <array>
#include <chrono>
#include <memory>
#include <string_view>

namespace swarfbook {
namespace {

struct DataFree {
    void operator()(ExifData* data) const { exif_data_unref(data); }
};

ExifEntry* findEntry(ExifData* data, ExifIfd directory, ExifTag tag) {
    return exif_content_get_entry(data->ifd[directory], tag);
}

/// The entry's first number, 0 when it is absent or not a whole number.
unsigned long numberOf(ExifData* data, ExifIfd directory, ExifTag tag) {
    const ExifEntry* entry = findEntry(data, directory, tag);
    if (entry == nullptr || entry->data == nullptr || entry->components < 1)
        return 0;
    const ExifByteOrder order = exif_data_get_byte_order(data);
    if (entry->format == EXIF_FORMAT_SHORT && entry->size >= 2)
        return exif_get_short(entry->data, order);
    if (entry->format == EXIF_FORMAT_LONG && entry->size >= 4)
        return exif_get_long(entry->data, order);
    return 0;
}

/// Whether the text is "YYYY:MM:DD hh:mm:ss" and a valid date and time.
bool isTime(const std::string& text) {
    constexpr std::string_view form = "0000:00:00 00:00:00";
    if (text.size() != form.size())
        return false;
    for (std::size_t i = 0; i < form.size(); ++i)
        if (form[i] == '0' ? text[i] < '0' || text[i] > '9' : text[i] != form[i])
            return false;
    const auto number = [&](std::size_t at, std::size_t count) {
        return std::stoi(text.substr(at, count));
    };
    const std::chrono::year_month_day day{std::chrono::year(number(0, 4)),
                                          std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(number(8, 2)))};
    return number(0, 4) > 0 && day.ok() && number(11, 2) < 24 && number(14, 2) < 60 &&
           number(17, 2) < 60;
}

std::string textOf(ExifData* data, ExifIfd directory, ExifTag tag) {
    ExifEntry* entry = findEntry(data, directory, tag);
    if (entry == nullptr)
        return {};
    std::array<char, 128> text{};
    exif_entry_get_value(entry, text.data(), static_cast<unsigned int>(text.size()));
    return text.data();
}

std::string cameraMarkOf(ExifData* data) {
    const std::string model = textOf(data, EXIF_IFD_0, EXIF_TAG_MODEL);
    if (model.empty())
        return {};
    const std::string name = textOf(data, EXIF_IFD_0, EXIF_TAG_MAKE) + "\n" + model;
    return sha256Hex(std::as_bytes(std::span(name))).substr(0, 8);
}

/// EXIF writes "2025:03:14 10:12:00"; cameras without a set clock write blanks or zeros.
std::string timeOf(ExifData* data) {
    std::string time = textOf(data, EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL);
    if (!isTime(time))
        return {};
    time[4] = time[7] = '-';
    time[10] = 'T';
    return time;
}

} // namespace

ExifFacts readExif(std::span<const std::byte> block) {
    ExifFacts facts;
    if (block.empty())
        return facts;
    const std::unique_ptr<ExifData, DataFree> data(
        exif_data_new_from_data(reinterpret_cast<const unsigned char*>(block.data()),
                                static_cast<unsigned int>(block.size())));
    if (!data)
        return facts;
    const auto orientation = numberOf(data.get(), EXIF_IFD_0, EXIF_TAG_ORIENTATION);
    if (orientation >= 1 && orientation <= 8)
        facts.orientation = static_cast<int>(orientation);
    facts.focalLength35Mm = static_cast<double>(
        numberOf(data.get(), EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM));
    facts.taken = timeOf(data.get());
    facts.cameraMark = cameraMarkOf(data.get());
    return facts;
}

} // namespace swarfbook
