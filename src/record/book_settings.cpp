// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/database.h"
#include "record/entry_text.h"

#include <fmt/format.h>

#include <array>

namespace swarfbook {
namespace {

struct NamedSetting {
    std::string_view name;
    std::string WorkshopSettings::*field;
};
constexpr std::array settingsByName{NamedSetting{"workshop", &WorkshopSettings::workshop},
                                    NamedSetting{"address", &WorkshopSettings::address},
                                    NamedSetting{"telephone", &WorkshopSettings::telephone},
                                    NamedSetting{"paper", &WorkshopSettings::paper}};

} // namespace

WorkshopSettings Book::settings() const {
    WorkshopSettings settings;
    Statement rows = database_->prepare("SELECT name, value FROM setting");
    while (rows.step())
        for (const NamedSetting& one : settingsByName)
            if (one.name == rows.text(0))
                settings.*one.field = rows.text(1);
    return settings;
}

void Book::keepSettings(const WorkshopSettings& settings) {
    if (!settings.paper.empty() && settings.paper != "a4" && settings.paper != "letter")
        throw UsageError(
            fmt::format("\"{}\" is not a paper size that reports are made for. Say a4 or "
                        "letter.",
                        settings.paper));
    BookTransaction transaction = begin();
    for (const NamedSetting& one : settingsByName)
        database_
            ->prepare("INSERT INTO setting (name, value) VALUES (?, ?) "
                      "ON CONFLICT (name) DO UPDATE SET value = excluded.value")
            .with(one.name, checkedLine(fmt::format("The {}", one.name), settings.*one.field, 200))
            .run();
    transaction.commit();
}

} // namespace swarfbook
