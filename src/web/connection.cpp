// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/connection.h"

#include "base/text.h"
#include "record/calendar.h"
#include "web/html.h"

#include <fmt/format.h>

#include <chrono>
#include <httplib.h>

namespace swarfbook::web {
namespace {

// A page's script sends photos in parts of 1 MiB.
constexpr std::size_t largestBody = std::size_t{1} << 20U;
constexpr std::chrono::seconds longestBody{60}; ///< ours: 17 kB/s for the largest
constexpr int partialBody = 408;

constexpr const char* policy =
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

void put(const Answer& answer, httplib::Response& response) {
    response.status = answer.status;
    for (const auto& [name, value] : answer.headers)
        response.set_header(name, value);
    if (!answer.headers.contains("Cache-Control"))
        response.set_header("Cache-Control", "no-store");
    response.set_content(answer.body, answer.type);
}

Answer refusal(const TurnedAway& why) {
    Answer answer = refusalPage(why.status, "Refused", why.sentence);
    answer.headers["Connection"] = "close"; // what was sent with it is not read
    return answer;
}

std::string peerOf(const httplib::Request& request) {
    return fmt::format("{}:{}", request.remote_addr, request.remote_port);
}

RequestHead headOf(const httplib::Request& request) {
    return {request.method, request.path, request.get_header_value("Host"),
            request.get_header_value("Origin"), request.get_header_value("Sec-Fetch-Site")};
}

std::string queryOf(const std::string& target) {
    const std::size_t mark = target.find('?');
    return mark == std::string::npos ? "" : target.substr(mark + 1);
}

/// Nothing where it came too slowly, or is larger than any that a page sends.
std::optional<std::string> bodyFrom(const httplib::ContentReader& reader) {
    std::string body;
    const auto deadline = std::chrono::steady_clock::now() + longestBody;
    const bool whole = reader([&](const char* data, std::size_t length) {
        if (body.size() + length > largestBody || std::chrono::steady_clock::now() > deadline)
            return false;
        body.append(data, length);
        return true;
    });
    return whole ? std::optional(body) : std::nullopt;
}

} // namespace

void Connection::log(const httplib::Request& request, int status,
                     const std::string& sentence) const {
    const std::string device = deviceOf(request);
    say_(fmt::format("{} {}{}: {} {}: {} ({})", nowUtc(), request.remote_addr,
                     device.empty() ? "" : ", device " + device, shown(request.method),
                     shown(request.path), sentence, status));
}

std::string Connection::deviceOf(const httplib::Request& request) const {
    const std::string token = cookieIn(request.get_header_value("Cookie"), "swarfbook");
    const auto device = token.empty() ? std::nullopt : workshop_.devices.byToken(token);
    return device ? device->number : std::string();
}

std::optional<TurnedAway> Connection::refusedBody(const httplib::Request& request) const {
    if (request.method != "POST")
        return std::nullopt;
    if (request.has_header("Transfer-Encoding") || !request.has_header("Content-Length"))
        return TurnedAway{411, "What was sent does not say how long it is."};
    if (request.get_header_value<std::uint64_t>("Content-Length") > largestBody)
        return TurnedAway{413, "What was sent is larger than a page takes at once."};
    if (request.has_header("Content-Encoding") || request.is_multipart_form_data())
        return TurnedAway{415, "What was sent is of a kind that no page takes."};
    return std::nullopt;
}

std::optional<TurnedAway> Connection::refused(const httplib::Request& request) {
    const auto now = std::chrono::steady_clock::now();
    const bool pairing = request.path == "/pair" && request.method == "POST";
    const std::string device = deviceOf(request);
    if (!requests_.allows(countedFor(device, request.remote_addr), now) ||
        (pairing && !pairings_.allows(request.remote_addr, now)))
        return TurnedAway{429, "Too much was asked at once. Wait a little and try again."};
    if (auto why = checkRequest(headOf(request), own_))
        return why;
    if (request.ranges.size() > 1)
        return TurnedAway{416, "Only one part of a file is sent at a time."};
    const bool forAnybody =
        request.method != "POST" &&
        answerAnybody(workshop_, {"GET", request.path, {}, {}, "", ""}, false).has_value();
    if (!forAnybody && !pairing && device.empty())
        return TurnedAway{401, "This device is not paired. Scan the code that the workshop's "
                               "computer shows, or the one on the page Devices of a paired one."};
    return refusedBody(request);
}

Answer Connection::answer(const httplib::Request& request, std::string body) {
    Asked asked{request.method == "HEAD" ? "GET" : request.method,
                request.path,
                fieldsOf(queryOf(request.target)),
                {},
                std::move(body),
                ""};
    const std::string type = request.get_header_value("Content-Type");
    if (type.starts_with("application/x-www-form-urlencoded"))
        asked.form = fieldsOf(asked.body);
    if (auto open = answerAnybody(workshop_, asked, own_.scheme == "https"))
        return *open;
    asked.device = deviceOf(request);
    return answerPaired(workshop_, asked);
}

void Connection::setLimits(httplib::Server& server) {
    server.set_payload_max_length(largestBody);
    server.set_keep_alive_max_count(1000);
    server.set_read_timeout(10);
    server.set_write_timeout(30);
    server.set_default_headers({{"Content-Security-Policy", policy},
                                {"X-Content-Type-Options", "nosniff"},
                                {"X-Frame-Options", "DENY"},
                                {"Referrer-Policy", "same-origin"},
                                {"Cross-Origin-Opener-Policy", "same-origin"},
                                {"Cross-Origin-Resource-Policy", "same-origin"}});
}

void Connection::answerOn(httplib::Server& server) {
    setLimits(server);
    server.set_logger([this](const httplib::Request& request, const httplib::Response&) {
        slow_.answered(peerOf(request));
    });
    server.set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& out) {
        slow_.headArrived(peerOf(request));
        const auto why = refused(request);
        if (!why)
            return httplib::Server::HandlerResponse::Unhandled;
        log(request, why->status, why->sentence);
        put(refusal(*why), out);
        return httplib::Server::HandlerResponse::Handled;
    });
    const auto give = [this](const httplib::Request& request, const Answer& answer,
                             httplib::Response& out) {
        if (answer.status >= 400)
            log(request, answer.status, "not done");
        put(answer, out);
    };
    server.Get(".*", [this, give](const httplib::Request& request, httplib::Response& out) {
        give(request, answer(request, ""), out);
    });
    server.Post(".*", [this, give](const httplib::Request& request, httplib::Response& out,
                                   const httplib::ContentReader& reader) {
        auto body = bodyFrom(reader);
        give(request,
             body ? answer(request, std::move(*body))
                  : refusal({partialBody, "What was sent did not arrive wholly."}),
             out);
    });
    server.set_error_handler([](const httplib::Request&, httplib::Response& out) {
        if (out.body.empty())
            put(refusal({out.status, "This could not be understood."}), out);
    });
    server.set_exception_handler([this](const httplib::Request& request, httplib::Response& out,
                                        const std::exception_ptr&) {
        log(request, 500, "failed");
        put(refusal({500, "Something failed. The terminal of swarfbook serve says what."}), out);
    });
}

} // namespace swarfbook::web
