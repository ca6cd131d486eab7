// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_export.h"

#include "base/errors.h"
#include "base/outputs.h"
#include "cli/export_rows.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

enum class Format { csv, jsonLines };

const ExportTable& tableNamed(const std::string& name) {
    std::string all;
    for (const ExportTable& table : exportTables()) {
        if (table.name == name)
            return table;
        all += (all.empty() ? "" : ", ") + std::string(table.name);
    }
    throw UsageError(
        fmt::format("{}Say what to export, one of {}: swarfbook export visits --out visits.csv.",
                    name.empty() ? "" : fmt::format("\"{}\" cannot be exported. ", name), all));
}

Format formatOf(const std::string& said, const std::string& file) {
    if (said == "csv")
        return Format::csv;
    if (said == "json-lines")
        return Format::jsonLines;
    if (!said.empty())
        throw UsageError(
            fmt::format("There is no format \"{}\". Say --as csv or --as json-lines.", said));
    const std::string ending = std::filesystem::path(file).extension().string();
    return ending == ".jsonl" || ending == ".ndjson" ? Format::jsonLines : Format::csv;
}

class ExportCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("what", text(),
            "the first word: visits, photos, pieces, flushes, observations or work-photos");
        add("as", text(),
            "csv (RFC 4180, UTF-8; a text that a spreadsheet would take for a formula gets an "
            "apostrophe in front) or json-lines (else by the file's ending: .jsonl, or csv)");
        add("vehicle", text(), "only this vehicle's");
        add("out", text(), "the file to write (else it is printed)");
        add("force", "replace the file if it is there already");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("what", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        table_ = &tableNamed(textOf(words, "what"));
        out_ = fileNameOf(words, "out");
        format_ = formatOf(textOf(words, "as"), out_);
        vehicle_ = maybeTextOf(words, "vehicle");
        book_ = maybeTextOf(words, "book");
        if (has(words, "force"))
            outputs_ = Outputs(IfThere::replace);
        if (out_.empty() && has(words, "force"))
            throw UsageError("--force replaces the file that --out names: give --out too.");
    }

    int run() override {
        if (!out_.empty()) {
            outputs_.addBook(bookFolder(book_));
            outputs_.plan(out_);
        }
        keepLinesWhole(true);
        const Book book = bookToRead(book_);
        if (format_ == Format::csv)
            put(csvHeader(table_->empty));
        const auto vehicles =
            vehicle_ ? std::vector{book.vehicleByLabel(*vehicle_)} : book.vehicles();
        for (const Vehicle& vehicle : vehicles)
            for (const Visit& visit : book.visits(vehicle.id))
                table_->rowsOf({&book, vehicle, visit}, [&](const ExportRow& row) {
                    put(format_ == Format::csv ? csvLine(row) : jsonLine(row));
                    ++rows_;
                });
        if (!out_.empty())
            save();
        return done;
    }

  private:
    void put(const std::string& line) {
        if (out_.empty())
            std::cout << line;
        else
            text_ += line;
    }

    void save() {
        outputs_.write(out_, {reinterpret_cast<const unsigned char*>(text_.data()), text_.size()});
        const std::string saved = fmt::format("Saved {}: {} row{} of {}", out_, rows_,
                                              rows_ == 1 ? "" : "s", table_->name);
        talk() << saved << "\n";
        nowKept(saved + ".");
    }

    const ExportTable* table_ = nullptr;
    Format format_ = Format::csv;
    std::string out_, text_;
    std::size_t rows_ = 0;
    std::optional<std::string> vehicle_, book_;
    Outputs outputs_;
};

} // namespace

CommandEntry exportEntry() {
    return {"export", "Write what the book holds as CSV or JSON Lines",
            "swarfbook export visits|photos|pieces|flushes|observations|work-photos\n"
            "                 [--as csv|json-lines] [--vehicle LABEL] [--out FILE [--force]]",
            "swarfbook export pieces --vehicle DEMO-03 --out pieces.csv --book trial-book",
            []() -> Command* { return new ExportCommand; }};
}

} // namespace swarfbook::cli
