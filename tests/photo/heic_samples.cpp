// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/heic_samples.h"

#include <catch2/catch.hpp>
#include <libheif/heif.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cstring>
#include <memory>

namespace swarfbook::samples {
namespace {

Bytes number(std::uint64_t value, int bytes) {
    Bytes all;
    for (int i = bytes - 1; i >= 0; --i)
        all.push_back(static_cast<std::byte>(value >> (8 * i) & 0xFF));
    return all;
}

void heicAppend(Bytes& to, const Bytes& more) {
    to.insert(to.end(), more.begin(), more.end());
}

Bytes joined(const std::vector<Bytes>& parts) {
    Bytes all;
    for (const Bytes& part : parts)
        heicAppend(all, part);
    return all;
}

Bytes box(const std::string& kind, const Bytes& content) {
    return joined({number(content.size() + 8, 4), bytesOf(kind), content});
}

/// A box with version and flags.
Bytes fullBox(const std::string& kind, int version, const Bytes& content) {
    return box(kind, joined({number(static_cast<std::uint64_t>(version) << 24, 4), content}));
}

heif_error write(heif_context* /*context*/, const void* data, std::size_t size, void* to) {
    auto& bytes = *static_cast<Bytes*>(to);
    const auto* first = static_cast<const std::byte*>(data);
    bytes.assign(first, first + size);
    return {heif_error_Ok, heif_suberror_Unspecified, ""};
}

using Image = std::unique_ptr<heif_image, decltype(&heif_image_release)>;

Image imageOf(const cv::Mat& bgr) {
    heif_image* image = nullptr;
    heif_image_create(bgr.cols, bgr.rows, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image);
    heif_image_add_plane(image, heif_channel_interleaved, bgr.cols, bgr.rows, 8);
    int stride = 0;
    std::uint8_t* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    cv::Mat to(bgr.rows, bgr.cols, CV_8UC3, plane, static_cast<std::size_t>(stride));
    cv::cvtColor(bgr, to, cv::COLOR_BGR2RGB);
    return {image, heif_image_release};
}

Bytes slice(const Bytes& file, const Range& range) {
    return {file.begin() + static_cast<std::ptrdiff_t>(range.first),
            file.begin() + static_cast<std::ptrdiff_t>(range.last)};
}

/// The data of each item in the boxes of a grid.
struct ItemTables {
    Bytes entries, references, properties, places;
};

/// The grid's item is 1, its tiles 2, 3, ...; its own data are the `idatBytes` of the box idat.
ItemTables itemTables(const std::vector<Bytes>& tiles, std::size_t idatBytes) {
    ItemTables tables;
    std::uint64_t at = 0;
    for (std::uint64_t item = 1; item <= tiles.size() + 1; ++item) {
        const bool isTile = item > 1;
        const std::uint64_t bytes = isTile ? tiles[item - 2].size() : idatBytes;
        heicAppend(tables.entries,
                   fullBox("infe", 2,
                           joined({number(item, 2), number(0, 2),
                                   bytesOf(std::string(isTile ? "hvc1" : "grid")), number(0, 1)})));
        heicAppend(tables.places,
                   joined({number(item, 2), number(isTile ? 0 : 1, 2), number(0, 2), number(1, 2),
                           number(isTile ? at : 0, 4), number(bytes, 4)}));
        at += isTile ? bytes : 0;
        if (isTile)
            heicAppend(tables.references, number(item, 2));
        // Properties: 1 hvcC, 2 size of a tile, 3 size of the whole, 4 turn.
        heicAppend(tables.properties,
                   joined({number(item, 2), number(2, 1), number(isTile ? 0x81 : 3, 1),
                           number(isTile ? 2 : 0x84, 1)}));
    }
    return tables;
}

Bytes sizeProperty(std::uint64_t width, std::uint64_t height) {
    return fullBox("ispe", 0, joined({number(width, 4), number(height, 4)}));
}

/// The box that says how tiles make a picture; ISO/IEC 23008-12, 6.6.2.3.
Bytes metaOf(const Grid& grid, cv::Size whole, const std::vector<Bytes>& tiles, const Bytes& hvcC) {
    const std::uint64_t count = tiles.size();
    const auto rows = static_cast<std::uint64_t>(grid.rows);
    const auto columns = static_cast<std::uint64_t>(grid.columns);
    const auto width = static_cast<std::uint64_t>(whole.width);
    const auto height = static_cast<std::uint64_t>(whole.height);
    const Bytes idat = joined({number(0, 2), number(rows - 1, 1), number(columns - 1, 1),
                               number(width, 2), number(height, 2)});
    const ItemTables items = itemTables(tiles, idat.size());
    const Bytes ipco =
        box("ipco", joined({box("hvcC", hvcC), sizeProperty(width / columns, height / rows),
                            sizeProperty(width, height),
                            box("irot", number(static_cast<std::uint64_t>(grid.turns), 1))}));
    return fullBox(
        "meta", 0,
        joined(
            {fullBox("hdlr", 0,
                     joined({number(0, 4), bytesOf(std::string("pict")), number(0, 13)})),
             fullBox("pitm", 0, number(1, 2)),
             fullBox("iinf", 0, joined({number(count + 1, 2), items.entries})),
             fullBox("iref", 0,
                     box("dimg", joined({number(1, 2), number(count, 2), items.references}))),
             box("iprp", joined({ipco, fullBox("ipma", 0,
                                               joined({number(count + 1, 4), items.properties}))})),
             box("idat", idat),
             fullBox("iloc", 1, joined({number(0x4400, 2), number(count + 1, 2), items.places}))}));
}

/// Corrects the tiles' places once it is known where their data begin.
void shiftPlaces(Bytes& file, std::size_t tiles, std::size_t dataAt) {
    const std::size_t table = contentOf(file, "iloc").first + 8;
    for (std::size_t tile = 1; tile <= tiles; ++tile) {
        const std::size_t field = table + tile * 16 + 8;
        std::uint64_t value = dataAt;
        for (std::size_t i = 0; i < 4; ++i)
            value += std::to_integer<std::uint64_t>(file[field + i]) << (8 * (3 - i));
        const Bytes put = number(value, 4);
        std::copy(put.begin(), put.end(), file.begin() + static_cast<std::ptrdiff_t>(field));
    }
}

} // namespace

bool canWriteHeic() {
    return heif_have_encoder_for_format(heif_compression_HEVC) != 0;
}

Bytes heicOf(const cv::Mat& bgr, const HevcCoding& coding) {
    const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(),
                                                                              heif_context_free);
    heif_encoder* made = nullptr;
    REQUIRE(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &made).code ==
            heif_error_Ok);
    const std::unique_ptr<heif_encoder, decltype(&heif_encoder_release)> encoder(
        made, heif_encoder_release);
    heif_encoder_set_lossy_quality(made, coding.quality);
    heif_encoder_set_parameter_string(made, "preset", "ultrafast");
    heif_encoder_set_parameter(made, "x265:wpp", coding.waves ? "1" : "0");
    const Image image = imageOf(bgr);
    heif_image_handle* handle = nullptr;
    REQUIRE(heif_context_encode_image(context.get(), image.get(), made, nullptr, &handle).code ==
            heif_error_Ok);
    heif_image_handle_release(handle);
    Bytes bytes;
    heif_writer writer{1, write};
    REQUIRE(heif_context_write(context.get(), &writer, &bytes).code == heif_error_Ok);
    return bytes;
}

Range contentOf(const Bytes& file, const std::string& kind) {
    const Bytes name = bytesOf(kind);
    const auto at = std::search(file.begin(), file.end(), name.begin(), name.end());
    REQUIRE(at != file.end());
    const auto first = static_cast<std::size_t>(at - file.begin()) + 4;
    std::size_t size = 0;
    for (std::size_t i = 0; i < 4; ++i)
        size = size << 8 | std::to_integer<std::size_t>(file[first - 8 + i]);
    return {first, first - 8 + size};
}

Bytes gridHeicOf(const cv::Mat& bgr, const Grid& grid, const HevcCoding& coding) {
    const cv::Size tile(bgr.cols / grid.columns, bgr.rows / grid.rows);
    std::vector<Bytes> tiles;
    Bytes hvcC;
    for (int row = 0; row < grid.rows; ++row)
        for (int column = 0; column < grid.columns; ++column) {
            const cv::Rect part(column * tile.width, row * tile.height, tile.width, tile.height);
            const Bytes one = heicOf(bgr(part).clone(), coding);
            const Bytes head = slice(one, contentOf(one, "hvcC"));
            REQUIRE((hvcC.empty() || hvcC == head));
            hvcC = head;
            tiles.push_back(slice(one, contentOf(one, "mdat")));
        }
    const Bytes front =
        joined({box("ftyp", joined({bytesOf(std::string("heic")), number(0, 4),
                                    bytesOf(std::string("mif1heic"))})),
                metaOf(grid, {tile.width * grid.columns, tile.height * grid.rows}, tiles, hvcC)});
    Bytes file = joined({front, box("mdat", joined(tiles))});
    shiftPlaces(file, tiles.size(), front.size() + 8);
    return file;
}

std::vector<Range> tilesOf(const Bytes& file) {
    const Range table = contentOf(file, "iloc");
    const auto at = [&](std::size_t place) {
        std::size_t value = 0;
        for (std::size_t i = 0; i < 4; ++i)
            value = value << 8 | std::to_integer<std::size_t>(file[place + i]);
        return value;
    };
    std::vector<Range> tiles;
    for (std::size_t entry = table.first + 8 + 16; entry < table.last; entry += 16)
        tiles.push_back({at(entry + 8), at(entry + 8) + at(entry + 12)});
    return tiles;
}

cv::Mat speckledPicture(cv::Size size) {
    cv::Mat picture(size, CV_8UC3);
    cv::RNG random(5);
    random.fill(picture, cv::RNG::UNIFORM, 150, 230);
    cv::GaussianBlur(picture, picture, {0, 0}, 1.2);
    for (int i = 0; i < size.area() / 800; ++i) {
        // In this order, one a statement: the stored files were made of just this picture.
        const int shade = random.uniform(20, 120);
        const int radius = random.uniform(1, 6);
        const cv::Point centre{random.uniform(0, size.width), random.uniform(0, size.height)};
        cv::circle(picture, centre, radius, cv::Scalar::all(shade), -1, cv::LINE_AA);
    }
    return picture;
}

} // namespace swarfbook::samples
