// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/html.h"

#include "base/text.h"
#include "web/page_words.h"

#include <fmt/format.h>

namespace swarfbook::web {

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : shown(text, Breaks::keep))
        switch (c) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        case '"':
            safe += "&quot;";
            break;
        case '\'':
            safe += "&#39;";
            break;
        default:
            safe += c;
        }
    return safe;
}

Answer page(const PageText& text, int status) {
    const std::string back = text.back.empty()
                                 ? ""
                                 : fmt::format("<nav aria-label=\"Way back\"><a class=\"back\" "
                                               "href=\"{}\"><span aria-hidden=\"true\">&larr;"
                                               "</span>{}</a></nav>",
                                               escaped(text.back), escaped(text.backTo));
    const std::string script =
        text.script.empty()
            ? ""
            : fmt::format("<script type=\"module\" src=\"/{}\"></script>", escaped(text.script));
    Answer answer;
    answer.status = status;
    answer.body = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"
        "<meta name=\"color-scheme\" content=\"light dark\"><title>{0} - swarfbook</title>"
        "<link rel=\"icon\" href=\"/icon.svg\"><link rel=\"stylesheet\" "
        "href=\"/style.css\">{3}</head>"
        "<body><header>{2}<h1>{0}</h1></header><main>{1}</main></body></html>\n",
        escaped(text.title), text.body, back, script);
    return answer;
}

Answer refusalPage(int status, const std::string& title, const std::string& sentence,
                   const std::string& back) {
    return page({title, notice("warning", sentence), back, "Back"}, status);
}

Answer goTo(const std::string& address) {
    Answer answer;
    answer.status = 303;
    answer.headers["Location"] = address;
    return answer;
}

std::string notice(std::string_view kind, const std::string& sentence) {
    return fmt::format("<p class=\"notice {}\" role=\"status\">{}</p>", kind,
                       escaped(forPages(sentence)));
}

std::string listUnder(std::string_view heading, const std::vector<std::string>& sentences) {
    std::string items;
    for (const std::string& sentence : sentences)
        if (!sentence.empty())
            items += "<li>" + escaped(forPages(sentence)) + "</li>";
    return items.empty()
               ? ""
               : fmt::format("<section><h2>{}</h2><ul>{}</ul></section>", escaped(heading), items);
}

std::string button(const std::string& address, const std::string& words, bool main) {
    return fmt::format("<a class=\"button{}\" href=\"{}\">{}</a>", main ? " main" : "",
                       escaped(address), escaped(words));
}

std::string answerToTap(std::string_view name, std::string_view value, std::string_view words,
                        bool chosen) {
    return fmt::format("<label class=\"choice\"><input type=\"radio\" name=\"{}\" value=\"{}\"{}>"
                       "<span>{}</span></label>",
                       name, escaped(value), chosen ? " checked" : "", escaped(words));
}

std::string actForm(const std::string& address, const std::string& words, bool asksWhy) {
    return fmt::format(
        "<form method=\"post\" action=\"{}\">{}<button>{}</button></form>", escaped(address),
        asksWhy ? field({"why", "Why", "", "the reason is kept with it"}) : "", escaped(words));
}

std::string field(const TypedField& f) {
    const std::string hint = f.hint.empty() ? ""
                                            : fmt::format("<small id=\"{0}-hint\">{1}</small>",
                                                          escaped(f.name), escaped(f.hint));
    std::string offered;
    for (const std::string& value : f.offered)
        offered += fmt::format("<option value=\"{}\"></option>", escaped(value));
    if (!offered.empty())
        offered =
            fmt::format("<datalist id=\"{}-offered\">{}</datalist>", escaped(f.name), offered);
    return fmt::format(
        "<div class=\"field\"><label for=\"{0}\">{1}</label><input id=\"{0}\" "
        "name=\"{0}\" type=\"{2}\" value=\"{3}\" autocomplete=\"off\"{4}{5}>{6}{7}</div>",
        escaped(f.name), escaped(f.label), escaped(f.type), escaped(f.value),
        f.hint.empty() ? "" : fmt::format(" aria-describedby=\"{}-hint\"", escaped(f.name)),
        offered.empty() ? "" : fmt::format(" list=\"{}-offered\"", escaped(f.name)), hint, offered);
}

} // namespace swarfbook::web
