// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_serve.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal_picture.h"
#include "web/pages_server.h"
#include "web/qr_code.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <csignal>
#include <iostream>
#include <mutex>
#include <poll.h>
#include <sys/signalfd.h>
#include <thread>
#include <unistd.h>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

constexpr int usualPort = 8420; ///< ours: of no service that is registered at IANA, from memory

/// What is typed at the terminal, and Ctrl-C, while the pages are answered. SIGINT and SIGTERM come
/// here alone from its making on, in this thread and all that it starts.
class Terminal {
  public:
    Terminal() {
        sigemptyset(&signals_);
        sigaddset(&signals_, SIGINT);
        sigaddset(&signals_, SIGTERM);
        pthread_sigmask(SIG_BLOCK, &signals_, &before_);
        ends_ = ::signalfd(-1, &signals_, SFD_CLOEXEC);
        if (ends_ < 0)
            throw ToolError("The system does not let this program wait for Ctrl-C.");
    }
    ~Terminal() {
        ::close(ends_);
        pthread_sigmask(SIG_SETMASK, &before_, nullptr);
    }
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    /// The next line typed; nothing where the program is to end.
    std::optional<std::string> line() {
        for (;;) {
            if (const std::size_t end = typed_.find('\n'); end != std::string::npos) {
                std::string line = typed_.substr(0, end);
                typed_.erase(0, end + 1);
                return line;
            }
            std::array<pollfd, 2> from{pollfd{ends_, POLLIN, 0},
                                       pollfd{open_ ? STDIN_FILENO : -1, POLLIN, 0}};
            if (::poll(from.data(), from.size(), -1) < 0)
                continue;
            if (from[0].revents != 0)
                return std::nullopt;
            read();
        }
    }

  private:
    void read() {
        std::array<char, 256> bytes{};
        const ssize_t length = ::read(STDIN_FILENO, bytes.data(), bytes.size());
        if (length <= 0)
            open_ = false; // nobody types: go on until a signal comes
        else if (typed_.size() < 4096)
            typed_.append(bytes.data(), static_cast<std::size_t>(length));
    }

    sigset_t signals_{}, before_{};
    int ends_ = -1;
    bool open_ = true;
    std::string typed_;
};

/// Runs the server in a thread of its own as long as it lives.
class Running {
  public:
    explicit Running(web::PagesServer& server)
        : server_(server), thread_([&server] { server.run(); }) {}
    ~Running() {
        server_.stop();
        thread_.join();
    }
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;

  private:
    web::PagesServer& server_;
    std::thread thread_;
};

class ServeCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("lan", "for the phones of the workshop's own network too, encrypted; else for this "
                   "machine alone");
        add("address", text(),
            "with --lan: which of this machine's addresses, where it has several");
        add("port", text(), "the port (default 8420; 0 = any that is free)");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        allowOnly(words, "serve", {"lan", "address", "port", "book"});
        server_.onNetwork = has(words, "lan");
        server_.address = textOf(words, "address");
        if (!server_.address.empty() && !server_.onNetwork)
            throw UsageError("--address goes with --lan.");
        server_.port = portOf(words);
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        server_.book = bookToWrite(book_, IfNoBook::startOne).folder();
        std::mutex saying;
        server_.say = [&saying](const std::string& sentence) {
            const std::lock_guard lock(saying);
            std::cerr << "swarfbook: " + sentence + "\n" << std::flush;
        };
        Terminal terminal;
        web::PagesServer server(server_);
        const Running running(server);
        greet(server);
        while (const auto line = terminal.line()) {
            if (*line == "stop")
                break;
            if (*line == "new")
                showPairing(server);
            else
                std::cout << "Type new for a code that pairs another device, or stop.\n"
                          << std::flush;
        }
        return done;
    }

  private:
    static int portOf(const ParsedOptions& words) {
        if (!has(words, "port"))
            return usualPort;
        const std::string text = textOf(words, "port");
        int port = -1;
        const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), port);
        if (error != std::errc() || stop != text.data() + text.size() || port < 0 || port > 65535)
            throw UsageError(fmt::format("\"{}\" is not a port. Say a number from 1 to 65535, or 0 "
                                         "for any that is free.",
                                         text));
        return port;
    }

    static void showPairing(web::PagesServer& server) {
        const std::string link = server.newPairing();
        std::cout << fmt::format("This pairs one device:\n{}\n", link);
        std::cout << std::flush;
        if (::isatty(STDOUT_FILENO) != 0)
            writeToTerminal(web::qrForTerminal(link));
    }

    void greet(web::PagesServer& server) const {
        std::cout << fmt::format("The pages of the book in {} are on {}\n", server_.book.string(),
                                 server.origin());
        if (server_.onNetwork)
            std::cout << "A phone warns once that it does not know who signed the certificate. Go "
                         "on where the page\nthat pairs it shows this SHA-256 fingerprint:\n"
                      << server.fingerprint() << "\n";
        showPairing(server);
        std::cout << "Type new for a code that pairs another device; stop, or Ctrl-C, ends.\n"
                  << std::flush;
    }

    web::ServerOptions server_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry serveEntry() {
    return {"serve", "Show the book's pages to phones and browsers of the workshop",
            "swarfbook serve [--lan [--address A]] [--port N]",
            "echo stop | swarfbook serve --port 0 --book trial-book",
            []() -> Command* { return new ServeCommand; }};
}

} // namespace swarfbook::cli
