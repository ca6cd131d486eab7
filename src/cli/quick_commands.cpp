// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command.h"
#include "cli/command_backup.h"
#include "cli/command_book.h"
#include "cli/command_compare.h"
#include "cli/command_eliminate.h"
#include "cli/command_export.h"
#include "cli/command_list.h"
#include "cli/command_observe.h"
#include "cli/command_photo.h"
#include "cli/command_piece.h"
#include "cli/command_restore.h"
#include "cli/command_settings.h"
#include "cli/command_suggest.h"
#include "cli/command_track_record.h"
#include "cli/command_unit.h"
#include "cli/command_vehicle.h"
#include "cli/command_visit.h"
#include "cli/command_walk.h"

namespace swarfbook::cli {

const std::vector<CommandEntry>& quickCommands() {
    static const std::vector<CommandEntry> list{
        unitEntry(),    vehicleEntry(),      visitEntry(nullptr), observeEntry(nullptr),
        walkEntry(),    compareEntry(),      eliminateEntry(),    suggestEntry(),
        photoEntry(),   pieceEntry(nullptr), trackRecordEntry(),  listEntry(),
        exportEntry(),  settingsEntry(),     bookEntry(),         backupEntry(),
        restoreEntry(),
    };
    return list;
}

} // namespace swarfbook::cli
