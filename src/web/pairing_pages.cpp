// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "web/embedded_files.h"
#include "web/html.h"
#include "web/pages.h"
#include "web/qr_code.h"

#include <fmt/format.h>

namespace swarfbook::web {
namespace {

constexpr const char* notOffered =
    "This code pairs no device: it was used, or the program was started again since. For a new "
    "one, "
    "type new at the computer on which swarfbook serve runs, or open the page Devices on a device "
    "that is paired.";

std::string fingerprintOf(const Workshop& workshop) {
    return workshop.address.fingerprint.empty()
               ? ""
               : fmt::format("<p>SHA-256 fingerprint of the certificate. Compare it once with what "
                             "the terminal shows:</p><p class=\"fingerprint\">{}</p>",
                             escaped(workshop.address.fingerprint));
}

Answer pairingPage(const Workshop& workshop, const std::string& code, const std::string& wrong) {
    if (!workshop.devices.isOffered(code))
        return refusalPage(403, "Not paired", notOffered);
    return page(
        {"Pair this device",
         (wrong.empty() ? "" : notice("warning", wrong)) +
             fmt::format("<form method=\"post\" action=\"/pair\"><input type=\"hidden\" "
                         "name=\"code\" value=\"{}\">{}<button class=\"main\">Pair this "
                         "device</button></form>{}",
                         escaped(code),
                         field({"name", "Name of this device", "", "such as: phone at bench 2"}),
                         fingerprintOf(workshop)),
         ""},
        wrong.empty() ? 200 : 400);
}

Answer pairNow(Workshop& workshop, const Asked& asked, bool secure) {
    try {
        const auto token = workshop.devices.pair(asked.said("code"), asked.said("name"));
        if (!token)
            return refusalPage(403, "Not paired", notOffered);
        Answer answer = goTo("/");
        answer.headers["Set-Cookie"] =
            fmt::format("swarfbook={}; Path=/; HttpOnly; SameSite=Strict; Max-Age=31536000{}",
                        *token, secure ? "; Secure" : "");
        return answer;
    } catch (const UsageError& wrong) {
        return pairingPage(workshop, asked.said("code"), wrong.what());
    }
}

} // namespace

std::optional<Answer> answerAnybody(Workshop& workshop, const Asked& asked, bool secure) {
    const bool post = asked.method == "POST";
    if (asked.path == "/pair")
        return post ? pairNow(workshop, asked, secure)
                    : pairingPage(workshop, asked.said("code"), "");
    if (post)
        return std::nullopt;
    for (const EmbeddedFile& file : embeddedFiles())
        if (asked.path == "/" + std::string(file.name))
            return Answer{200, std::string(file.type), std::string(file.content), {}};
    return std::nullopt;
}

Answer devicesPage(Workshop& workshop, const Asked& asked) {
    std::string rows;
    for (const PairedDevice& one : workshop.devices.all())
        rows += fmt::format(
            "<li class=\"row\"><div><strong>{0}</strong><br><small>{1}paired on {2}</small></div>"
            "<details><summary>Shut out</summary><form method=\"post\" action=\"/devices\"><input "
            "type=\"hidden\" name=\"number\" value=\"{3}\"><button>Shut {0} out</button></form>"
            "</details></li>",
            escaped(one.name), one.number == asked.device ? "this device, " : "",
            escaped(dateWords(one.pairedAt)), escaped(one.number));
    const std::string link = workshop.address.pairing(workshop.devices.newCode());
    return page(
        {"Devices",
         fmt::format("<section><h2>Pair another device</h2><p>Scan this code with the phone's "
                     "camera. It pairs one device; this page shows a new code each time.</p>{}"
                     "<p><a href=\"{}\">{}</a></p>{}</section><section><h2>Paired</h2>"
                     "<ul class=\"rows\">{}</ul></section>",
                     qrAsSvg(link), escaped(link), escaped(link), fingerprintOf(workshop), rows),
         "/"});
}

Answer revokeDevice(Workshop& workshop, const Asked& asked) {
    if (!workshop.devices.revoke(asked.said("number")))
        throw UsageError("There is no such device.");
    return goTo("/devices");
}

} // namespace swarfbook::web
