// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace swarfbook::web {

/// Ends connections that keep a thread waiting: those whose request's head is not whole ten seconds
/// after they were made or were answered last, and, of one address, all but the newest sixteen
/// of those from which no head has come for a second. So no unpaired device can take every thread
/// by sending one byte at a time. The library of the connections limits each read alone, not the
/// whole head. Linux alone: it looks through the process's own sockets once a second. Checked:
/// tests/web/server_test.cpp.
class SlowConnections {
  public:
    /// @param port  on which this process accepts connections
    explicit SlowConnections(int port);
    ~SlowConnections();
    SlowConnections(const SlowConnections&) = delete;
    SlowConnections& operator=(const SlowConnections&) = delete;

    /// A head is whole; the answer may take as long as it needs. `peer` is "address:port".
    void headArrived(const std::string& peer);
    void answered(const std::string& peer);

  private:
    using Moment = std::chrono::steady_clock::time_point;
    struct Known {
        Moment since;       ///< seen first, or answered last
        bool busy = false;  ///< a request is being answered
        bool asked = false; ///< a head has come
        bool there = true;
    };
    void watch();
    void look(Moment now);
    /// By address: since when each silent connection is there, and its file.
    using Silent = std::map<std::string, std::vector<std::pair<Moment, int>>>;
    /// Whether the connection is to be ended; notes that it is there, and whether it is silent.
    bool isSlow(const std::string& peer, int file, Moment now, Silent& silent);

    int port_;
    std::mutex mutex_;
    std::condition_variable wake_;
    bool ends_ = false;
    std::map<std::string, Known> known_;
    std::thread thread_;
};

} // namespace swarfbook::web
