// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace swarfbook::web {

/// A text of the libraries as it is told on a page. They advise in the words of the command line; a
/// page says what to tap instead. What no page can do is said to be for the workshop's computer.
/// Text without a command and without an option comes back as it is.
/// Checked: tests/web/page_words_test.cpp, tests/web/pages_test.cpp.
std::string forPages(std::string_view text);

/// A kind of observation, named as the command line does ("end-play"), as a page heads it: "End
/// play". Checked: tests/web/page_words_test.cpp.
std::string observationTitle(std::string_view form);

} // namespace swarfbook::web
