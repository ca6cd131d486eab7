// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/unit_table.h"

#include "base/errors.h"
#include "base/text.h"
#include "unit/chart_words.h"
#include "unit/separated_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <tuple>

namespace swarfbook {
namespace {

struct Column {
    bool solenoid = false;
    std::string name;
};

/// The name in "solenoid A", "sol. A" or "sol A"; else nothing.
std::string solenoidName(const std::string& header) {
    const std::string lower = lowered(header);
    for (const std::string_view word : {"solenoid ", "sol. ", "sol "})
        if (lower.starts_with(word))
            return nameTyped("A solenoid", std::string_view(header).substr(word.size()));
    return "";
}

bool isElementHeader(const std::string& header) {
    const std::string lower = lowered(header);
    return lower.starts_with("clutch ") || lower.starts_with("brake ") ||
           lower.starts_with("one-way") || lower.starts_with("one way");
}

bool isState(const std::string& cell) {
    const std::string lower = lowered(cell);
    return lower == "on" || lower == "off" || lower == "mod" || lower == "modulated" ||
           lower == "pwm" || lower == "any";
}

class TableReader {
  public:
    TableReader(const std::string& unit, const SeparatedText& text) : text_(text) {
        table_.chart.unit = unit;
        table_.chart.source = "table typed by the user";
    }

    UnitTable read() {
        if (text_.rows.size() < 3)
            throw UsageError("A table has a row of titles and at least two gears. swarfbook unit "
                             "--help shows one.");
        readTitles();
        for (const SeparatedText::Row& row : text_.rows)
            if (&row != &text_.rows.front() && !takeGear(row))
                later_.push_back(&row);
        markManualRanges(table_.chart);
        for (const SeparatedText::Row* row : later_)
            takeFurther(*row);
        return std::move(table_);
    }

  private:
    using Cell = std::function<void(const Column&, const std::string&)>;

    [[noreturn]] static void refuse(const SeparatedText::Row& row, const std::string& where,
                                    const std::string& why) {
        throw UsageError(
            fmt::format("Line {}{}: {}", row.line, where.empty() ? "" : ", column " + where, why));
    }

    void readTitles() {
        const SeparatedText::Row& titles = text_.rows.front();
        for (std::size_t i = 1; i < titles.cells.size(); ++i) {
            const std::string& title = titles.cells[i];
            if (title.empty())
                refuse(titles, std::to_string(i + 1),
                       "it has no title. Write clutch P, brake X, one-way W or solenoid A.");
            try {
                addColumn(title, i);
            } catch (const UsageError& wrong) {
                refuse(titles, title, wrong.what());
            }
        }
        if (table_.chart.elements.empty())
            refuse(titles, "", "no column is an element. Write clutch P, brake X or one-way W.");
    }

    void addColumn(const std::string& title, std::size_t at) {
        const bool plain = !isElementHeader(title) && solenoidName(title).empty();
        const bool solenoid = !solenoidName(title).empty() || (plain && isColumnOfStates(at));
        std::string name = title;
        if (solenoid) {
            ApplicationChart::Solenoid s;
            name = s.name = plain ? nameTyped("A solenoid", title) : solenoidName(title);
            table_.chart.solenoids.push_back(s);
        } else {
            const auto element = plain ? ApplicationChart::Element{nameTyped("An element", title),
                                                                   ElementKind::clutch}
                                       : elementTyped(title);
            name = element.name;
            table_.chart.elements.push_back(element);
            if (plain)
                table_.assumed.push_back(fmt::format("{} is taken for a clutch; title its column "
                                                     "\"brake {}\" or \"one-way {}\" if it is one.",
                                                     name, name, name));
        }
        for (const Column& other : columns_)
            if (other.name == name && other.solenoid == solenoid)
                throw UsageError("it is there twice.");
        columns_.push_back({solenoid, name});
    }

    [[nodiscard]] bool isColumnOfStates(std::size_t at) const {
        for (std::size_t row = 1; row < text_.rows.size(); ++row)
            if (at < text_.rows[row].cells.size() && isState(text_.rows[row].cells[at]))
                return true;
        return false;
    }

    /// Each cell with its column. A row may end early but must not be longer than the titles.
    void eachCell(const SeparatedText::Row& row, const Cell& take) const {
        for (std::size_t i = 1; i < row.cells.size(); ++i) {
            if (i > columns_.size()) {
                if (!row.cells[i].empty())
                    refuse(row, std::to_string(i + 1), "it has no title above it.");
                continue;
            }
            try {
                take(columns_[i - 1], row.cells[i]);
            } catch (const UsageError& wrong) {
                refuse(row, columns_[i - 1].name, wrong.what());
            }
        }
    }

    ApplicationChart::Solenoid& solenoid(const std::string& name) {
        return *std::find_if(table_.chart.solenoids.begin(), table_.chart.solenoids.end(),
                             [&](const auto& s) { return s.name == name; });
    }

    /// @return false for any other row.
    bool takeGear(const SeparatedText::Row& row) {
        const std::string first = lowered(row.cells.front());
        for (const char* word : {"feeds", "kind", "band", "group", "code", "current removed",
                                 "source", "fluid", "pan service", "level"})
            if (first == word)
                return false;
        if (first.starts_with("bore "))
            return false;
        ApplicationChart::Gear gear;
        try {
            gear.name = nameTyped("A gear", row.cells.front());
        } catch (const UsageError& wrong) {
            refuse(row, "", wrong.what());
        }
        eachCell(row, [&](const Column& column, const std::string& cell) {
            if (!column.solenoid)
                gear.elements[column.name] = appliedTyped(cell);
            else if (!cell.empty())
                gear.solenoids[column.name] = stateTyped(cell);
        });
        if (table_.chart.gear(gear.name) != nullptr)
            refuse(row, "", fmt::format("gear {} is there twice.", gear.name));
        std::erase_if(gear.elements, [](const auto& e) { return e.second == Applied::no; });
        table_.chart.gears.push_back(std::move(gear));
        return true;
    }

    void takeFurther(const SeparatedText::Row& row) {
        const std::string first = lowered(row.cells.front());
        if (first.starts_with("bore "))
            return takeBore(row);
        if (first == "source" || first == "fluid" || first == "pan service" || first == "level")
            return takeValue(row, first);
        eachCell(row, [&](const Column& column, const std::string& cell) {
            if (cell.empty())
                return;
            if (!column.solenoid)
                throw UsageError(
                    fmt::format("\"{}\" applies to solenoids only; leave it empty for an element.",
                                row.cells.front()));
            takeOfSolenoid(first, cell, solenoid(column.name));
        });
    }

    void takeOfSolenoid(const std::string& row, const std::string& cell,
                        ApplicationChart::Solenoid& s) {
        if (row == "feeds") {
            feedsTyped(cell, table_.chart, s);
        } else if (row == "kind") {
            s.type = solenoidKindTyped(cell);
        } else if (row == "band") {
            const auto [low, high] = bandTyped(cell);
            s.bandLow = low;
            s.bandHigh = high;
        } else if (row == "group") {
            s.calibrated = lowered(cell) == "calibrated";
            s.siblings = s.calibrated ? "" : nameTyped("A group", cell);
        } else if (row == "code") {
            s.code = codeNameTyped(cell);
        } else {
            table_.chart.currentRemoved[s.name] = stateTyped(cell);
        }
    }

    void takeBore(const SeparatedText::Row& row) {
        ApplicationChart::Bore bore;
        try {
            bore.name = nameTyped("A bore", std::string_view(row.cells.front()).substr(5));
        } catch (const UsageError& wrong) {
            refuse(row, "", wrong.what());
        }
        eachCell(row, [&](const Column& column, const std::string& cell) {
            if (cell.empty())
                return;
            if (lowered(cell) != "x")
                throw UsageError(fmt::format("\"{}\" is not understood: mark with x what the bore "
                                             "feeds and the solenoid that moves it.",
                                             cell));
            if (!column.solenoid)
                bore.feeds.push_back(column.name);
            else if (bore.solenoid.empty())
                bore.solenoid = column.name;
            else
                throw UsageError("one solenoid moves a bore; two are marked.");
        });
        for (const ApplicationChart::Gear& gear : table_.chart.gears)
            for (const std::string& element : bore.feeds)
                if (gear.elements.contains(element) &&
                    (bore.gears.empty() || bore.gears.back() != gear.name))
                    bore.gears.push_back(gear.name);
        table_.chart.bores.push_back(std::move(bore));
    }

    void takeValue(const SeparatedText::Row& row, const std::string& what) {
        const std::string value = row.cells.size() > 1 ? row.cells[1] : "";
        ApplicationChart& chart = table_.chart;
        try {
            if (what == "source")
                chart.source = sourceTyped(value);
            else if (what == "fluid")
                chart.fluidTotal = parseVolume(value).value;
            else if (what == "pan service")
                chart.fluidPanService = parseVolume(value).value;
            else
                std::tie(chart.levelFrom, chart.levelTo) = windowTyped(value);
        } catch (const UsageError& wrong) {
            refuse(row, "2", wrong.what());
        }
    }

    const SeparatedText& text_;
    UnitTable table_;
    std::vector<Column> columns_;
    std::vector<const SeparatedText::Row*> later_;
};

} // namespace

UnitTable unitFromTable(const std::string& unit, std::string_view text) {
    const SeparatedText rows = separatedText(text);
    return TableReader(unit, rows).read();
}

std::string_view unitTableHelp() {
    return R"(A table for --from-table, as pasted from a sheet (commas, semicolons or tabs). First
the titles, then one row for each gear: x where an element holds, (x) where it is
applied without torque; on, off, mod or any for a solenoid. A gear picked by hand
is called after its gear. The rows below are optional.

    gear,       clutch P, clutch Q, brake X, brake Y, one-way W, solenoid A, solenoid B
    R,          ,         x,        ,        x,       ,          off,        on
    1,          x,        ,         ,        ,        x,         on,         off
    1 by hand,  x,        ,         ,        x,       x,         on,         off
    2,          x,        ,         x,       ,        ,          on,         on
    3,          x,        x,        ,        ,        ,          off,        any
    feeds,      ,         ,         ,        ,        ,          +P,         +X -Q
    kind,       ,         ,         ,        ,        ,          on-off,     on-off
    band,       ,         ,         ,        ,        ,          11-15,      11-15
    group,      ,         ,         ,        ,        ,          shift,      shift
    code,       ,         ,         ,        ,        ,          shift A,    shift B
    current removed, ,    ,         ,        ,        ,          off,        off
    bore 1-2 valve, ,     ,         x,       x,       ,          ,           x
    source,     manual page 12
    fluid,      9.0l
    pan service, 4.2l
    level,      35-45C
)";
}

} // namespace swarfbook
