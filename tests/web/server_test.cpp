// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "web/pages_server.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <httplib.h>
#include <mutex>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;

namespace {

constexpr const char* form = "application/x-www-form-urlencoded";

/// The pages over a connection of this machine.
class RunningPages {
  public:
    explicit RunningPages(const std::filesystem::path& book)
        : server_(options(book)), thread_([this] { server_.run(); }), client_(server_.origin()) {}
    ~RunningPages() {
        server_.stop();
        thread_.join();
    }
    RunningPages(const RunningPages&) = delete;
    RunningPages& operator=(const RunningPages&) = delete;

    /// Pairs this client, as a browser that follows the code would.
    std::string pair() {
        const std::string link = server_.newPairing();
        const std::string code = link.substr(link.find("code=") + 5);
        const auto paired = client_.Post("/pair", ours(), "code=" + code + "&name=test", form);
        REQUIRE(paired);
        REQUIRE(paired->status == 303);
        return paired->get_header_value("Set-Cookie");
    }
    [[nodiscard]] httplib::Headers ours(const std::string& cookie = "") const {
        httplib::Headers headers{{"Origin", server_.origin()}};
        if (!cookie.empty())
            headers.emplace("Cookie", cookie.substr(0, cookie.find(';')));
        return headers;
    }
    httplib::Client& client() { return client_; }
    PagesServer& server() { return server_; }
    std::string told() {
        const std::lock_guard lock(mutex_);
        return told_;
    }

  private:
    ServerOptions options(const std::filesystem::path& book) {
        ServerOptions options;
        options.book = book;
        options.port = 0;
        options.say = [this](const std::string& sentence) {
            const std::lock_guard lock(mutex_);
            told_ += sentence + "\n";
        };
        return options;
    }
    std::mutex mutex_;
    std::string told_;
    PagesServer server_;
    std::thread thread_;
    httplib::Client client_;
};

} // namespace

TEST_CASE("whoever is not paired sees no page, and the log says so") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    for (const char* path :
         {"/", "/visit/1", "/visit/1/report.pdf", "/photo/1/picture", "/devices", "/nothing"}) {
        INFO(path);
        const auto answer = pages.client().Get(path, pages.ours("swarfbook=abc"));
        REQUIRE(answer);
        CHECK(answer->status == 401);
        CHECK_THAT(answer->body, Contains("not paired") && !Contains("DEMO-01"));
    }
    const auto post = pages.client().Post("/new", pages.ours(), "vehicle=X&new=1&date=today", form);
    REQUIRE(post);
    CHECK(post->status == 401);
    const auto style = pages.client().Get("/style.css");
    REQUIRE(style);
    CHECK(style->status == 200);
    CHECK_THAT(pages.told(), Contains("/visit/1") && Contains("(401)"));
}

TEST_CASE("a device that is paired sees the pages, each with the headers that keep it safe") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    const std::string cookie = pages.pair();
    CHECK_THAT(cookie, Contains("HttpOnly") && Contains("SameSite=Strict") && Contains("Path=/"));
    const auto first = pages.client().Get("/", pages.ours(cookie));
    REQUIRE(first);
    CHECK(first->status == 200);
    CHECK_THAT(first->body, Contains("DEMO-01"));
    const std::string policy = first->get_header_value("Content-Security-Policy");
    CHECK_THAT(policy, Contains("default-src 'none'") && Contains("frame-ancestors 'none'") &&
                           !Contains("unsafe"));
    CHECK(first->get_header_value("X-Content-Type-Options") == "nosniff");
    CHECK(first->get_header_value("Cache-Control") == "no-store");
    const std::string link = pages.server().newPairing();
    CHECK_THAT(link, Catch::StartsWith(pages.server().origin() + "/pair?code="));
    CHECK(pages.client().Get("/pair?code=00", pages.ours())->status == 403);
}

TEST_CASE("heads that never end keep nobody waiting, and one book's pages are on once") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    const std::string cookie = pages.pair();
    CHECK_THROWS_AS(RunningPages(trial.book), ToolError);
    const std::string origin = pages.server().origin();
    const int port = std::stoi(origin.substr(origin.rfind(':') + 1));
    std::vector<int> sockets;
    for (int i = 0; i < 140; ++i) { // more than are answered at once
        const int one = ::socket(AF_INET, SOCK_STREAM, 0);
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(static_cast<std::uint16_t>(port));
        to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        REQUIRE(::connect(one, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0);
        REQUIRE(::send(one, "GET / HTTP/1.1\r\nX", 17, MSG_NOSIGNAL) == 17);
        sockets.push_back(one);
        // the system keeps five that wait to be accepted, and a sixth tries again a second later
        std::this_thread::sleep_for(std::chrono::milliseconds(3));
    }
    httplib::Client other(origin);
    other.set_read_timeout(8); // the server reads each for ten seconds
    const auto answer = other.Get("/", pages.ours(cookie));
    REQUIRE(answer);
    CHECK(answer->status == 200);
    for (const int one : sockets)
        ::close(one);
}

TEST_CASE("what another site sends is not done") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    const std::string cookie = pages.pair();
    const std::string body = "vehicle=EVIL&new=1&date=2025-06-01";
    httplib::Headers other = pages.ours(cookie);
    other.erase("Origin");
    CHECK(pages.client().Post("/new", other, body, form)->status == 403);
    other.emplace("Origin", "http://evil.example");
    CHECK(pages.client().Post("/new", other, body, form)->status == 403);
    CHECK_THAT(pages.client().Get("/", pages.ours(cookie))->body, !Contains("EVIL"));
    httplib::Headers renamed = pages.ours(cookie);
    renamed.emplace("Host", "evil.example");
    CHECK(pages.client().Get("/", renamed)->status == 421);
    CHECK(pages.client().Post("/new", pages.ours(cookie), body, form)->status == 303);
}

TEST_CASE("bodies that are too large or of another kind are refused, and the pages go on") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    const std::string cookie = pages.pair();
    const std::string large(3u << 20U, 'a');
    const auto refused = pages.client().Post("/new", pages.ours(cookie), large, form);
    CHECK((!refused || refused->status == 413)); // it may be cut off while it is still sent
    const httplib::MultipartFormDataItems items{{"a", "b", "c.txt", "text/plain"}};
    const auto multipart = pages.client().Post("/new", pages.ours(cookie), items);
    REQUIRE(multipart);
    CHECK(multipart->status == 415);
    CHECK(pages.client().Put("/new", pages.ours(cookie), "a", form)->status >= 400);
    CHECK(pages.client().Get("/..%2f..%2fetc%2fpasswd", pages.ours(cookie))->status == 404);
    CHECK(pages.client().Get("/%2e%2e/book.db", pages.ours(cookie))->status == 404);
    CHECK(pages.client().Get("/", pages.ours(cookie))->status == 200);
}

TEST_CASE("a device that asks without end has to wait") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    bool waits = false;
    for (int i = 0; i < 30 && !waits; ++i) {
        const auto answer = pages.client().Post("/pair", pages.ours(), "code=0&name=x", form);
        waits = answer && answer->status == 429;
    }
    CHECK(waits);
}

TEST_CASE("the same port is not taken twice") {
    TrialWorkshop trial;
    RunningPages pages(trial.book);
    ServerOptions again;
    again.book = trial.book;
    const std::string origin = pages.server().origin();
    again.port = std::stoi(origin.substr(origin.rfind(':') + 1));
    CHECK_THROWS_AS(PagesServer(again), ToolError);
    again.onNetwork = true;
    again.address = "198.51.100.77"; // of documentation alone (RFC 5737): no machine has it
    CHECK_THROWS_AS(PagesServer(again), UsageError);
}
