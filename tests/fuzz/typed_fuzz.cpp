// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/codes.h"
#include "bench/typed.h"
#include "bench/typed_observation.h"
#include "fuzz/fuzz_target.h"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

using namespace swarfbook;

namespace {

/// A reader of typed text either gives a finite value or says what to type instead.
template <class Read> void tryReading(const Read& read) {
    try {
        read();
    } catch (const UsageError& wrong) {
        if (std::string_view(wrong.what()).empty())
            throw std::logic_error("a refusal without a sentence");
    }
}

template <class Unit> void tryUnit(Typed<Unit> (*parse)(std::string_view, Sure), const auto& text) {
    for (const Sure sure : {Sure::ask, Sure::meant})
        tryReading([&] {
            if (!std::isfinite(parse(text, sure).value.value()))
                throw std::logic_error("a value that is not finite");
        });
}

void tryUnits(const std::string& text) {
    tryUnit(parseOhms, text);
    tryUnit(parseTemperature, text);
    tryUnit(parseVacuum, text);
    tryUnit(parsePressure, text);
    tryUnit(parseVolume, text);
    tryUnit(parseDistance, text);
    tryUnit(parseVolts, text);
    tryUnit(parseAmperes, text);
    tryUnit(parseFrequency, text);
    tryUnit(parseDuration, text);
    tryUnit(parseFlow, text);
    tryUnit(parseSmallLength, text);
    tryReading([&] { static_cast<void>(halfLastDigit(parseLength(text))); });
    tryReading([&] { parseCode(text); });
}

/// The words of a line as a shell hands them over, parted by line feeds.
std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char c : text)
        if (c == '\n')
            words.emplace_back();
        else
            words.back() += c;
    return words;
}

/// KIND VALUE... --option VALUE ... as `observe` takes them.
void tryObservation(const std::vector<std::string>& typed) {
    TypedLine line;
    line.form = typed.front();
    for (std::size_t i = 1; i < typed.size(); ++i) {
        const std::string name = typed[i].starts_with("--") ? typed[i].substr(2) : "";
        if (name.empty())
            line.values.push_back(typed[i]);
        else
            line.options[name] = i + 1 < typed.size() ? typed[i + 1] : "";
    }
    for (const Sure sure : {Sure::ask, Sure::meant})
        tryReading([&] {
            const Observation read = observationTyped(line, sure);
            const auto stored = toJson(read);
            if (toJson(observationFromJson(observationKind(read), stored)) != stored)
                throw std::logic_error("an observation is not stored as it was typed");
            static_cast<void>(describe(read));
        });
}

} // namespace

/// whatever is typed is read as a finite value, or refused with a sentence; an
/// accepted observation is stored and read back the same.
FUZZ_TARGET(typed_fuzz, data, size) {
    const std::string text(data, data + size);
    tryUnits(text);
    tryObservation(wordsOf(text));
    return 0;
}
