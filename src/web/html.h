// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "web/asked.h"

#include <string>
#include <string_view>
#include <vector>

/// What every page is put together from.
/// Checked: tests/web/html_test.cpp, tests/web/pages_test.cpp.
namespace swarfbook::web {

/// Text as it may stand in HTML, in an attribute too: what base/text.h calls unprintable shown
/// escaped, and & < > " ' as entities.
std::string escaped(std::string_view text);

/// A page of its own.
struct PageText {
    std::string title;                 ///< plain text; the heading as well
    std::string body;                  ///< HTML
    std::string back;                  ///< address of the page above; "" = none
    std::string backTo = "All visits"; ///< what that is called
    std::string script{};              ///< "photo.js": one of the program's own; "" = none
};
Answer page(const PageText& text, int status = 200);

/// A page that says why something is not done, with one way on.
Answer refusalPage(int status, const std::string& title, const std::string& sentence,
                   const std::string& back = "/");

/// On to another page, after a form was taken in (RFC 9110, 303 See Other).
Answer goTo(const std::string& address);

/// A sentence that stands out: "note" or "warning". Here and in lists of sentences commands are
/// told as taps (page_words.h).
std::string notice(std::string_view kind, const std::string& sentence);
/// A list of sentences under a heading; "" for an empty list.
std::string listUnder(std::string_view heading, const std::vector<std::string>& sentences);
/// A link that looks like a button.
std::string button(const std::string& address, const std::string& words, bool main = false);

/// One of several answers to tap; those of one question share their name.
std::string answerToTap(std::string_view name, std::string_view value, std::string_view words,
                        bool chosen);

/// A field to type in, with its label.
struct TypedField {
    std::string name, label, value{}, hint{};
    std::string type = "text";
    std::vector<std::string> offered{}; ///< values that the browser offers while one types
};
std::string field(const TypedField& field);
/// A form of one button, with the reason where one is asked for.
std::string actForm(const std::string& address, const std::string& words, bool asksWhy);

} // namespace swarfbook::web
