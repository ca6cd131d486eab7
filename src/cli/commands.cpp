// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command.h"
#include "cli/command_add.h"
#include "cli/command_backup.h"
#include "cli/command_book.h"
#include "cli/command_card.h"
#include "cli/command_check.h"
#include "cli/command_compare.h"
#include "cli/command_eliminate.h"
#include "cli/command_export.h"
#include "cli/command_flush.h"
#include "cli/command_list.h"
#include "cli/command_measure.h"
#include "cli/command_observe.h"
#include "cli/command_photo.h"
#include "cli/command_piece.h"
#include "cli/command_report.h"
#include "cli/command_restore.h"
#include "cli/command_serve.h"
#include "cli/command_settings.h"
#include "cli/command_suggest.h"
#include "cli/command_track_record.h"
#include "cli/command_unit.h"
#include "cli/command_vehicle.h"
#include "cli/command_visit.h"
#include "cli/command_walk.h"
#include "cli/measure_again.h"
#include "cli/work_photo_files.h"

namespace swarfbook::cli {

const std::vector<CommandEntry>& commands() {
    static const std::vector<CommandEntry> list{
        cardEntry(),
        measureEntry(),
        unitEntry(),
        vehicleEntry(),
        visitEntry(measureAgain),
        addEntry(),
        flushEntry(),
        photoEntry(),
        pieceEntry(reviewPieces),
        walkEntry(),
        observeEntry(readWorkPhoto),
        compareEntry(),
        eliminateEntry(),
        suggestEntry(),
        reportEntry(),
        checkEntry(),
        trackRecordEntry(),
        listEntry(),
        exportEntry(),
        settingsEntry(),
        bookEntry(),
        backupEntry(),
        restoreEntry(),
        serveEntry(),
    };
    return list;
}

int runWords(const std::vector<std::string>& words) {
    return runWords(words, commands());
}

} // namespace swarfbook::cli
