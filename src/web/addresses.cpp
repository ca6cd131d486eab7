// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/addresses.h"

#include <arpa/inet.h>
#include <array>
#include <cstdint>
#include <ifaddrs.h>
#include <memory>
#include <net/if.h>

namespace swarfbook::web {

std::vector<std::string> networkAddresses() {
    ifaddrs* first = nullptr;
    if (::getifaddrs(&first) != 0)
        return {};
    const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> all(first, ::freeifaddrs);
    std::vector<std::string> addresses;
    for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
        if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET ||
            (one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0)
            continue;
        std::array<char, INET_ADDRSTRLEN> text{};
        const auto* address = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
        if (::inet_ntop(AF_INET, &address->sin_addr, text.data(), text.size()) != nullptr)
            addresses.emplace_back(text.data());
    }
    return addresses;
}

bool isPrivateAddress(const std::string& ipv4) {
    in_addr parsed{};
    if (::inet_pton(AF_INET, ipv4.c_str(), &parsed) != 1)
        return false;
    const std::uint32_t a = ntohl(parsed.s_addr);
    return a >> 24U == 10 || a >> 20U == 0xAC1 || a >> 16U == 0xC0A8 || a >> 16U == 0xA9FE ||
           a >> 22U == 0x191;
}

} // namespace swarfbook::web
