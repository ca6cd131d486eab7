// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

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
/// std::expected, which is to replace it.
template <class T> class [[nodiscard]] Result {
  public:
    Result(T value) : state_(std::move(value)) {}
    Result(Refusal refusal) : state_(std::move(refusal)) {}

    [[nodiscard]] bool has_value() const { return std::holds_alternative<T>(state_); }
    explicit operator bool() const { return has_value(); }
    [[nodiscard]] const T& value() const& { return get<T>(state_, "Result holds a refusal"); }
    [[nodiscard]] T& value() & { return get<T>(state_, "Result holds a refusal"); }
    [[nodiscard]] T&& value() && { return std::move(get<T>(state_, "Result holds a refusal")); }
    [[nodiscard]] const Refusal& error() const {
        return get<Refusal>(state_, "Result holds a value");
    }
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

  private:
    template <class U, class State> static auto& get(State& state, const char* what) {
        if (auto* held = std::get_if<U>(&state))
            return *held;
        throw std::logic_error(what);
    }
    std::variant<T, Refusal> state_;
};

} // namespace swarfbook
