// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

/// Shown so within a test, and as before after it.
class ShownIn {
  public:
    explicit ShownIn(const ShownUnits& units) { showIn(units); }
    ~ShownIn() { showIn({}); }
    ShownIn(const ShownIn&) = delete;
    ShownIn& operator=(const ShownIn&) = delete;
};

} // namespace

TEST_CASE("units stay as they are unless other units are set") {
    CHECK(distanceWords(128400.0) == "128,400 km");
    CHECK(inShownUnit(80.0, "C").value == 80.0);
    CHECK(inShownUnit(4.5, "l").unit == "l");
    CHECK(dateWords("2025-06-14") == "2025-06-14");
}

// The international mile is 1.609344 km (1959 agreement), the US liquid quart 0.946352946 l
// (NIST Handbook 44), 0 C is 32 F and 100 C is 212 F.
TEST_CASE("miles, degrees Fahrenheit and US quarts") {
    const ShownIn here({true, true, true, DateOrder::yearFirst});
    CHECK(distanceWords(160934.4) == "100,000 mi");
    CHECK(distanceRange(50.0, 150.0) == "31 to 93 mi"); // 50 / 1.609344, 150 / 1.609344
    CHECK(inShownUnit(0.0, "C").value == Approx(32.0));
    CHECK(inShownUnit(100.0, "C").value == Approx(212.0));
    CHECK(inShownUnit(0.946352946, "l").value == Approx(1.0));
    CHECK(inShownUnit(100.0, "C").unit == "F");
    CHECK(inShownUnit(3.0, "ohm").unit == "ohm");
}

TEST_CASE("days are shown in the order that is set, other texts unchanged") {
    const ShownIn here({false, false, false, DateOrder::dayFirst});
    CHECK(dateWords("2025-06-04") == "4 Jun 2025");
    CHECK(dateWords("2025-12-31T23:59:59Z") == "31 Dec 2025");
    showIn({false, false, false, DateOrder::monthFirst});
    CHECK(dateWords("2025-06-14") == "Jun 14, 2025");
    for (const char* none : {"", "not known", "2025-13-01", "2025"})
        CHECK(dateWords(none) == none);
}

// Source: the short names of months in glibc's locales de_DE, fr_FR and es_ES.
TEST_CASE("days are shown with German, French or Spanish names of the months") {
    const ShownIn here({false, false, false, dateOrderOf("german")});
    CHECK(dateWords("2025-03-04") == "4. M\u00e4r 2025");
    CHECK(dateWords("2025-12-31") == "31. Dez 2025");
    showIn({false, false, false, dateOrderOf("french")});
    CHECK(dateWords("2025-02-04") == "4 f\u00e9vr. 2025");
    CHECK(dateWords("2025-08-14") == "14 ao\u00fbt 2025");
    showIn({false, false, false, dateOrderOf("spanish")});
    CHECK(dateWords("2025-01-14") == "14 ene 2025");
}

TEST_CASE("every order of dates has its word") {
    for (std::size_t i = 0; i < dateOrderWords().size(); ++i)
        CHECK(dateOrderOf(dateOrderWords()[i]) == static_cast<DateOrder>(i));
    CHECK(dateOrderOf("any") == DateOrder::yearFirst);
}
