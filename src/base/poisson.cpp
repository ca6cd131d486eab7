// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/poisson.h"

#include <boost/math/distributions/chi_squared.hpp>

#include <stdexcept>

namespace swarfbook {

std::array<double, 2> poissonInterval95(long count) {
    if (count < 0)
        throw std::logic_error("a count cannot be negative");
    using boost::math::chi_squared;
    const double k = static_cast<double>(count);
    const double lower = count == 0 ? 0.0 : 0.5 * quantile(chi_squared(2.0 * k), 0.025);
    const double upper = 0.5 * quantile(chi_squared(2.0 * k + 2.0), 0.975);
    return {lower, upper};
}

} // namespace swarfbook
