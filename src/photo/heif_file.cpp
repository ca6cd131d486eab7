// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/heif_file.h"

#include "photo/heif_boxes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <string_view>

namespace swarfbook::decoding {
namespace {

/// Where an item's data are: method 0 in the file, 1 in the box "idat".
struct Location {
    std::uint64_t method = 0;
    std::vector<Stretch> stretches;
};
using Locations = std::map<std::uint64_t, Location>;

/// The box "iloc" (ISO/IEC 14496-12, 8.11.3).
Locations locationsIn(Bytes content) {
    BoxReader reader(content);
    const std::uint64_t version = fullHead(reader).version;
    const std::uint64_t sizes = reader.number(2);
    const auto nibble = [&](int place) { return static_cast<std::size_t>(sizes >> place & 0xF); };
    const std::size_t wide = version < 2 ? 2 : 4;
    Locations all;
    for (std::uint64_t left = reader.number(wide); left > 0; --left) {
        Location& one = all[reader.number(wide)];
        if (version > 0)
            one.method = reader.number(2) & 0xF;
        reader.number(2); // which file: 0, this one
        const std::uint64_t base = reader.number(nibble(4));
        std::uint64_t extents = reader.number(2);
        if (extents > 1 && nibble(12) + nibble(8) == 0)
            throw std::invalid_argument("stretches without place and size");
        for (; extents > 0; --extents) {
            if (version > 0)
                reader.number(nibble(0));
            const std::uint64_t offset = reader.number(nibble(12));
            one.stretches.push_back({base + offset, reader.number(nibble(8))});
        }
    }
    return all;
}

std::uint64_t mainItem(Bytes content) {
    BoxReader reader(content);
    return reader.number(fullHead(reader).version == 0 ? 2 : 4);
}

/// The kind of an item, "grid" or "hvc1" (8.11.6).
std::string kindOfItem(Bytes content, std::uint64_t item) {
    BoxReader reader(content);
    reader.number(fullHead(reader).version == 0 ? 2 : 4);
    for (const Box& entry : boxesIn(reader.take(reader.left()))) {
        BoxReader fields(entry.content);
        const std::uint64_t version = fullHead(fields).version;
        if (version < 2 || fields.number(version == 2 ? 2 : 4) != item)
            continue;
        fields.number(2); // protection
        std::string kind;
        for (const std::byte letter : fields.take(4))
            kind += static_cast<char>(letter);
        return kind;
    }
    return {};
}

/// The items that an item is made of, in order (8.11.12, "dimg").
std::vector<std::uint64_t> partsOfItem(Bytes content, std::uint64_t item) {
    BoxReader reader(content);
    const std::size_t wide = fullHead(reader).version == 0 ? 2 : 4;
    std::vector<std::uint64_t> parts;
    for (const Box& reference : boxesIn(reader.take(reader.left()))) {
        BoxReader fields(reference.content);
        if (reference.kind != "dimg" || fields.number(wide) != item)
            continue;
        for (std::uint64_t left = fields.number(2); left > 0; --left)
            parts.push_back(fields.number(wide));
    }
    return parts;
}

/// The numbers of an item's properties, in order; from 1 on (ISO/IEC 23008-12, 9.3.1, "ipma").
std::vector<std::uint64_t> propertiesOfItem(Bytes content, std::uint64_t item) {
    BoxReader reader(content);
    const FullHead full = fullHead(reader);
    const std::size_t wide = (full.flags & 1) != 0 ? 2 : 1;
    std::vector<std::uint64_t> own;
    for (std::uint64_t left = reader.number(4); left > 0; --left) {
        const bool isIt = reader.number(full.version == 0 ? 2 : 4) == item;
        for (std::uint64_t count = reader.number(1); count > 0; --count) {
            const std::uint64_t index = reader.number(wide) & (wide == 2 ? 0x7FFF : 0x7F);
            if (isIt)
                own.push_back(index);
        }
    }
    return own;
}

std::vector<int> turnsOf(const std::vector<Box>& meta, std::uint64_t item) {
    const std::vector<Box> properties = boxesIn(boxOf(meta, "iprp").content);
    const std::vector<Box> all = boxesIn(boxOf(properties, "ipco").content);
    std::vector<int> turns;
    for (const std::uint64_t index : propertiesOfItem(boxOf(properties, "ipma").content, item)) {
        if (index == 0 || index > all.size())
            continue;
        const Box& property = all[static_cast<std::size_t>(index - 1)];
        if (property.content.empty())
            continue;
        const int value = std::to_integer<int>(property.content[0]);
        if (property.kind == "irot" && (value & 3) != 0)
            turns.push_back(value & 3);
        if (property.kind == "imir")
            turns.push_back((value & 1) == 0 ? 4 : 5);
    }
    return turns;
}

/// The file, its outer boxes and how much its box "idat" holds.
struct Whole {
    Bytes file;
    std::vector<Box> outer;
    Bytes idat;
};

/// Whether the stretch lies in one of the boxes of picture data, whole.
bool isInside(const Stretch& s, const std::vector<Box>& boxes) {
    return std::any_of(boxes.begin(), boxes.end(), [&](const Box& box) {
        return box.kind == "mdat" && s.at >= box.at && s.at - box.at <= box.content.size() &&
               s.size <= box.content.size() - (s.at - box.at);
    });
}

/// Notes the parts of a location that do not lie where picture data are.
void checkPlaces(HeifPicture& picture, const Whole& whole, const Location& location) {
    const std::size_t held = location.method == 1 ? whole.idat.size() : whole.file.size();
    for (const Stretch& s : location.stretches) {
        const bool beyond = s.at > held || s.size > held - s.at;
        picture.dataCutOff = picture.dataCutOff || beyond;
        picture.dataOutside =
            picture.dataOutside || (location.method == 0 && !isInside(s, whole.outer));
    }
}

/// Rows and columns of a grid (ISO/IEC 23008-12, 6.6.2.3.2).
void readGrid(HeifPicture& picture, const Whole& whole, const Location& location) {
    if (location.stretches.empty())
        throw std::invalid_argument("the grid has no description");
    BoxReader reader(location.method == 1 ? whole.idat : whole.file);
    reader.take(static_cast<std::size_t>(location.stretches.front().at));
    reader.number(2); // version and flags
    picture.rows = static_cast<int>(reader.number(1)) + 1;
    picture.columns = static_cast<int>(reader.number(1)) + 1;
}

/// The data of the items that the picture is made of.
void readTiles(HeifPicture& picture, const Whole& whole, const std::vector<std::uint64_t>& items,
               const Locations& locations) {
    for (const std::uint64_t item : items) {
        const auto location = locations.find(item);
        picture.tiles.emplace_back();
        if (location == locations.end())
            continue;
        checkPlaces(picture, whole, location->second);
        if (location->second.method == 0)
            picture.tiles.back() = location->second.stretches;
    }
}

HeifPicture pictureIn(Bytes file) {
    Whole whole{file, boxesIn(file), {}};
    BoxReader metaReader(boxOf(whole.outer, "meta").content);
    fullHead(metaReader);
    const std::vector<Box> meta = boxesIn(metaReader.take(metaReader.left()));
    for (const Box& box : meta)
        if (box.kind == "idat")
            whole.idat = box.content;
    const std::uint64_t main = mainItem(boxOf(meta, "pitm").content);
    const Locations locations = locationsIn(boxOf(meta, "iloc").content);
    std::vector<std::uint64_t> items{main};
    HeifPicture picture;
    if (kindOfItem(boxOf(meta, "iinf").content, main) == "grid") {
        checkPlaces(picture, whole, locations.at(main));
        readGrid(picture, whole, locations.at(main));
        items = partsOfItem(boxOf(meta, "iref").content, main);
    }
    readTiles(picture, whole, items, locations);
    picture.turns = turnsOf(meta, main);
    return picture;
}

} // namespace

bool endsTooEarly(Bytes file) {
    bool describesItself = false;
    try {
        for (BoxReader reader(file); reader.left() > 0;)
            describesItself |= nextBox(reader).kind == "meta";
    } catch (const std::out_of_range&) {
        return true;
    } catch (const std::invalid_argument&) {
        return false; // not a box: libheif reports the damage
    }
    return !describesItself;
}

std::optional<HeifPicture> describedPicture(Bytes file) {
    try {
        return pictureIn(file);
    } catch (const std::out_of_range&) {
        return std::nullopt;
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

std::vector<unsigned char> dataOf(Bytes file, const std::vector<Stretch>& tile) {
    std::vector<unsigned char> data;
    for (const Stretch& s : tile) {
        if (s.at > file.size() || s.size > file.size() - s.at)
            return {};
        for (const std::byte b :
             file.subspan(static_cast<std::size_t>(s.at), static_cast<std::size_t>(s.size)))
            data.push_back(std::to_integer<unsigned char>(b));
    }
    return data;
}

std::string whereInPicture(const HeifPicture& picture, std::size_t tile) {
    const auto columns = static_cast<std::size_t>(picture.columns);
    const std::size_t row = tile / columns, column = tile % columns;
    // The tile's middle, 0 to 1 from the upper left corner, turned as the picture is.
    double x = (static_cast<double>(column) + 0.5) / picture.columns;
    double y = (static_cast<double>(row) + 0.5) / picture.rows;
    for (const int turn : picture.turns) {
        for (int quarter = 0; turn < 4 && quarter < turn; ++quarter) {
            const double before = x;
            x = y;
            y = 1.0 - before;
        }
        if (turn == 4)
            y = 1.0 - y;
        if (turn == 5)
            x = 1.0 - x;
    }
    const auto third = [](double place) {
        return std::min(std::size_t{2}, static_cast<std::size_t>(place * 3.0));
    };
    constexpr std::array<std::string_view, 9> names{"upper left", "upper middle", "upper right",
                                                    "left",       "middle",       "right",
                                                    "lower left", "lower middle", "lower right"};
    return fmt::format("its {} part, tile {} of {},", names[third(y) * 3 + third(x)], tile + 1,
                       picture.rows * picture.columns);
}

} // namespace swarfbook::decoding
