// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace swarfbook {

/// Why a photo cannot be measured. The names in the measurement document are those of reasonName.
enum class RefusalReason {
    noCard,
    cardCutOff,
    mixedCards,
    tooTilted,
    blurred,
    tooDark,
    glare,
    clipped,
    notAPhoto,
    tooLarge,
    findingDamaged ///< it was measured, and what the book kept of it can no longer be read
};

/// "no_card", "card_cut_off", ... as the measurement document writes it.
std::string_view reasonName(RefusalReason reason);
/// The inverse of reasonName; throws std::invalid_argument for an unknown name.
RefusalReason reasonFromName(std::string_view name);

/// An expected "could not measure": what was seen (`detail`) and what the user should do
/// (`advice`), each one or two plain sentences.
struct Refusal {
    RefusalReason reason = RefusalReason::notAPhoto;
    std::string detail;
    std::string advice;
};

/// Either a value or the refusal that explains why there is none. Member names follow C++23's
/// std::expected, which is to replace it. Taking the value of a refusal without checking throws
/// EvidenceRefused with the refusal's own sentences, so that the user reads what was wrong.
template <class T> class [[nodiscard]] Result {
  public:
    Result(T value) : state_(std::move(value)) {}
    Result(Refusal refusal) : state_(std::move(refusal)) {}

    [[nodiscard]] bool has_value() const { return std::holds_alternative<T>(state_); }
    explicit operator bool() const { return has_value(); }
    [[nodiscard]] const T& value() const& { return held(state_); }
    [[nodiscard]] T& value() & { return held(state_); }
    [[nodiscard]] T&& value() && { return std::move(held(state_)); }
    [[nodiscard]] const Refusal& error() const {
        if (const auto* refusal = std::get_if<Refusal>(&state_))
            return *refusal;
        throw std::logic_error("this photo was measured, and it was taken for a refused one");
    }
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

  private:
    template <class State> static auto& held(State& state) {
        if (auto* value = std::get_if<T>(&state))
            return *value;
        const Refusal& refusal = std::get<Refusal>(state);
        throw EvidenceRefused(refusal.detail + " " + refusal.advice);
    }
    std::variant<T, Refusal> state_;
};

} // namespace swarfbook
