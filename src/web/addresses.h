// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace swarfbook::web {

/// This machine's own IPv4 addresses in networks that are up, the loopback left out, in the order
/// in which the system names them. Checked: tests/web/addresses_test.cpp.
std::vector<std::string> networkAddresses();

/// Whether it is of a network that the internet does not reach (RFC 1918, RFC 3927, RFC 6598).
bool isPrivateAddress(const std::string& ipv4);

} // namespace swarfbook::web
