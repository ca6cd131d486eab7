// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/pages_server.h"

#include "base/errors.h"
#include "base/private_file.h"
#include "web/addresses.h"
#include "web/certificate.h"
#include "web/connection.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <openssl/ssl.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <fcntl.h>
#include <httplib.h>
#include <sys/file.h>
#include <sys/socket.h>
#include <thread>
#include <unistd.h>

namespace swarfbook::web {
namespace {

constexpr std::size_t atOnce = 128; ///< connections answered at the same time; ours

std::string chosenAddress(const ServerOptions& options) {
    if (!options.onNetwork)
        return "127.0.0.1";
    const std::vector<std::string> all = networkAddresses();
    if (all.empty())
        throw UsageError("This machine is in no network, so no phone can reach it. Join the "
                         "workshop's network first.");
    if (options.address.empty()) {
        const auto inside = std::find_if(all.begin(), all.end(), isPrivateAddress);
        if (inside == all.end())
            throw UsageError(fmt::format("This machine has no address of a network of its own, "
                                         "only {}, which the internet may reach. If you mean it, "
                                         "name it with --address.",
                                         fmt::join(all, " and ")));
        return *inside;
    }
    if (std::find(all.begin(), all.end(), options.address) == all.end())
        throw UsageError(fmt::format("{} is not an address of this machine. It has {}.",
                                     options.address, fmt::join(all, " and ")));
    return options.address;
}

std::unique_ptr<httplib::Server> newServer(const Certificate* certificate) {
    if (certificate == nullptr)
        return std::make_unique<httplib::Server>();
    auto server = std::make_unique<httplib::SSLServer>(certificate->certificate.get(),
                                                       certificate->key.get());
    if (!server->is_valid())
        throw ToolError("The certificate for the workshop's network cannot be used.");
    SSL_CTX_set_min_proto_version(server->ssl_context(), TLS1_2_VERSION);
    return server;
}

/// The port is this program's alone: no second one listens on it beside this one.
void ownPort(socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

int boundPort(httplib::Server& server, const std::string& address, int port) {
    if (port == 0)
        port = server.bind_to_any_port(address);
    else if (!server.bind_to_port(address, port))
        port = -1;
    if (port <= 0)
        throw ToolError(fmt::format("The pages could not be put on {}: another program uses that "
                                    "port, or it is not allowed. Name another one with --port.",
                                    address));
    return port;
}

/// The pages of a book are shown by one program at a time: each would overwrite the other's list of
/// devices. The system ends this with the program, however it ends.
class PagesLock {
  public:
    explicit PagesLock(const std::filesystem::path& folder) {
        makePrivateFolder(folder);
        file_ = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (file_ >= 0 && ::flock(file_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
            ::close(file_);
            throw ToolError("The pages of this book are on already: another swarfbook serve shows "
                            "them. Use its address, or end it first.");
        }
    }
    ~PagesLock() {
        if (file_ >= 0)
            ::close(file_);
    }
    PagesLock(const PagesLock&) = delete;
    PagesLock& operator=(const PagesLock&) = delete;

  private:
    int file_ = -1;
};

} // namespace

struct PagesServer::Parts {
    explicit Parts(const ServerOptions& options)
        : lock(pagesFolder(options.book)), workshop(options.book, options.say) {}
    PagesLock lock;
    Workshop workshop;
    std::unique_ptr<httplib::Server> server{};
    std::unique_ptr<Connection> connection{};
    std::atomic<bool> running = false, stopped = false;
};

PagesServer::PagesServer(ServerOptions options) {
    if (!options.say)
        options.say = [](const std::string&) {};
    const std::string address = chosenAddress(options);
    parts_ = std::make_unique<Parts>(options);
    Certificate certificate;
    if (options.onNetwork)
        certificate = certificateFor(pagesFolder(options.book), address);
    parts_->server = newServer(options.onNetwork ? &certificate : nullptr);
    httplib::Server& server = *parts_->server;
    server.new_task_queue = [] { return new httplib::ThreadPool(atOnce); };
    server.set_socket_options(ownPort);
    const int port = boundPort(server, address, options.port);
    const OwnAddress own{options.onNetwork ? "https" : "http", fmt::format("{}:{}", address, port)};
    parts_->workshop.address = {own.origin(), certificate.fingerprint};
    parts_->connection = std::make_unique<Connection>(parts_->workshop, own, port, options.say);
    parts_->connection->answerOn(server);
}

PagesServer::~PagesServer() {
    stop();
}

const std::string& PagesServer::origin() const {
    return parts_->workshop.address.origin;
}

const std::string& PagesServer::fingerprint() const {
    return parts_->workshop.address.fingerprint;
}

std::string PagesServer::newPairing() {
    return parts_->workshop.address.pairing(parts_->workshop.devices.newCode());
}

void PagesServer::run() {
    parts_->running = true;
    if (!parts_->stopped)
        parts_->server->listen_after_bind();
    parts_->running = false;
}

void PagesServer::stop() {
    if (parts_->stopped.exchange(true))
        return;
    // The library forgets a stop that comes before it listens.
    while (parts_->running && !parts_->server->is_running())
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    parts_->server->stop();
}

} // namespace swarfbook::web
