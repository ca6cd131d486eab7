// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/database.h"
#include "record/entry_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <vector>

namespace swarfbook {
namespace {

struct NamedSetting {
    std::string_view name;
    std::string WorkshopSettings::*field;
    std::string_view table = "setting";
};
constexpr std::array settingsByName{
    NamedSetting{"workshop", &WorkshopSettings::workshop},
    NamedSetting{"address", &WorkshopSettings::address},
    NamedSetting{"telephone", &WorkshopSettings::telephone},
    NamedSetting{"paper", &WorkshopSettings::paper},
    NamedSetting{"distance", &WorkshopSettings::distance, "display_setting"},
    NamedSetting{"temperature", &WorkshopSettings::temperature, "display_setting"},
    NamedSetting{"volume", &WorkshopSettings::volume, "display_setting"},
    NamedSetting{"dates", &WorkshopSettings::dates, "display_setting"}};

/// A setting that allows only a few words.
struct Choice {
    std::string_view name;
    std::vector<std::string_view> words;
};
const std::vector<Choice>& choices() {
    static const std::vector<Choice> all{{"paper", {"a4", "letter"}},
                                         {"distance", {"km", "mi"}},
                                         {"temperature", {"C", "F"}},
                                         {"volume", {"l", "qt"}},
                                         {"dates", dateOrderWords()}};
    return all;
}

void requireChoice(const NamedSetting& setting, const std::string& said) {
    for (const Choice& choice : choices())
        if (choice.name == setting.name && !said.empty() &&
            std::find(choice.words.begin(), choice.words.end(), said) == choice.words.end())
            throw UsageError(fmt::format("\"{}\" is not known for {}. Say {}.", said, setting.name,
                                         fmt::join(choice.words, " or ")));
}

} // namespace

ShownUnits shownBy(const WorkshopSettings& settings) {
    ShownUnits units;
    units.miles = settings.distance == "mi";
    units.fahrenheit = settings.temperature == "F";
    units.quarts = settings.volume == "qt";
    units.dates = dateOrderOf(settings.dates);
    return units;
}

WorkshopSettings Book::settings() const {
    WorkshopSettings settings;
    Statement rows = database_->prepare("SELECT name, value FROM setting UNION ALL "
                                        "SELECT name, value FROM display_setting");
    while (rows.step())
        for (const NamedSetting& one : settingsByName)
            if (one.name == rows.text(0))
                settings.*one.field = rows.text(1);
    return settings;
}

void Book::keepSettings(const WorkshopSettings& settings) {
    for (const NamedSetting& one : settingsByName)
        requireChoice(one, settings.*one.field);
    BookTransaction transaction = begin();
    for (const NamedSetting& one : settingsByName)
        database_
            ->prepare(fmt::format("INSERT INTO {} (name, value) VALUES (?, ?) "
                                  "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                                  one.table))
            .with(one.name, checkedLine(fmt::format("The {}", one.name), settings.*one.field, 200))
            .run();
    transaction.commit();
}

} // namespace swarfbook
