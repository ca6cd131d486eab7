// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/slow_connections.h"

#include <fmt/format.h>

#include <algorithm>
#include <arpa/inet.h>
#include <array>
#include <charconv>
#include <filesystem>
#include <netinet/in.h>
#include <optional>
#include <sys/socket.h>

namespace swarfbook::web {
namespace {

using namespace std::chrono_literals;
constexpr auto longestHead = 10s;
constexpr auto silentAfter = 1s;
constexpr std::size_t mostSilent = 16; // of one address; ours: a browser opens six

struct Peer {
    std::string address;
    int port = 0;
};

/// The other end of a connection that was accepted on the port; nothing for any other file.
std::optional<Peer> peerOf(int file, int port) {
    sockaddr_in own{}, other{};
    socklen_t length = sizeof own;
    if (::getsockname(file, reinterpret_cast<sockaddr*>(&own), &length) != 0 ||
        own.sin_family != AF_INET || ntohs(own.sin_port) != port)
        return std::nullopt;
    length = sizeof other;
    if (::getpeername(file, reinterpret_cast<sockaddr*>(&other), &length) != 0)
        return std::nullopt; // it listens
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &other.sin_addr, text.data(), text.size());
    return Peer{text.data(), ntohs(other.sin_port)};
}

} // namespace

SlowConnections::SlowConnections(int port) : port_(port), thread_([this] { watch(); }) {}

SlowConnections::~SlowConnections() {
    {
        const std::lock_guard lock(mutex_);
        ends_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

void SlowConnections::headArrived(const std::string& peer) {
    const std::lock_guard lock(mutex_);
    Known& one = known_[peer];
    one.busy = one.asked = true;
}

void SlowConnections::answered(const std::string& peer) {
    const std::lock_guard lock(mutex_);
    Known& one = known_[peer];
    one.busy = false;
    one.since = std::chrono::steady_clock::now();
}

void SlowConnections::watch() {
    std::unique_lock lock(mutex_);
    while (!wake_.wait_for(lock, 1s, [this] { return ends_; }))
        look(std::chrono::steady_clock::now());
}

bool SlowConnections::isSlow(const std::string& peer, int file, Moment now, Silent& silent) {
    const auto [at, isNew] = known_.try_emplace(peer, Known{now});
    Known& one = at->second;
    one.there = true;
    if (isNew || one.busy)
        return false;
    if (!one.asked && now - one.since >= silentAfter)
        silent[peer.substr(0, peer.rfind(':'))].emplace_back(one.since, file);
    return now - one.since > longestHead;
}

void SlowConnections::look(Moment now) {
    for (auto& [peer, one] : known_)
        one.there = false;
    Silent silent;
    std::error_code error;
    std::filesystem::directory_iterator entry("/proc/self/fd", error);
    for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
        const std::string name = entry->path().filename().string();
        int file = -1;
        std::from_chars(name.data(), name.data() + name.size(), file);
        const auto peer = peerOf(file, port_);
        if (peer && isSlow(fmt::format("{}:{}", peer->address, peer->port), file, now, silent))
            ::shutdown(file, SHUT_RDWR); // its thread reads an end and closes it
    }
    for (auto& [address, all] : silent) { // the oldest hold the threads, the newest may be honest
        std::sort(all.begin(), all.end());
        for (std::size_t i = 0; i + mostSilent < all.size(); ++i)
            ::shutdown(all[i].second, SHUT_RDWR);
    }
    std::erase_if(known_, [](const auto& one) { return !one.second.there; });
}

} // namespace swarfbook::web
