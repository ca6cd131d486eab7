// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/result.h"
#include "base/units.h"

#include <catch2/catch.hpp>

#include <type_traits>

using namespace swarfbook;

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Dividable = requires(A a, B b) {
    a / b;
};

static_assert(Addable<Millimetres, Millimetres>);
static_assert(!Addable<Millimetres, Micrometres>);
static_assert(!Addable<Millimetres, Pixels>);
static_assert(!std::is_convertible_v<double, Millimetres>);
static_assert(std::is_same_v<decltype(Pixels(3) / PixelsPerMillimetre(2)), Millimetres>);
static_assert(!Dividable<Pixels, Millimetres>);

TEST_CASE("a pixel length becomes millimetres by its scale alone") {
    CHECK((Pixels(30) / PixelsPerMillimetre(20)).value() == 1.5);
    CHECK(toMicrometres(Millimetres(0.2)).value() == Catch::Detail::Approx(200.0));
}

TEST_CASE("a result holds a value or a refusal, and reasons keep their names") {
    const Result<int> five = 5;
    const Result<int> none = Refusal{RefusalReason::noCard, "no marker", "lay the card down"};
    CHECK(five.has_value());
    CHECK(*five == 5);
    CHECK_FALSE(none.has_value());
    CHECK_THROWS_AS(none.value(), EvidenceRefused); // with the refusal's sentences
    CHECK(reasonName(none.error().reason) == "no_card");
    CHECK(reasonFromName("card_cut_off") == RefusalReason::cardCutOff);
    CHECK_THROWS_AS(reasonFromName("bored"), std::invalid_argument);
}
