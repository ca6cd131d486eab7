// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

/// Description of one field of an observation. Storing, reading typed text, help, work sheet and
/// describing all follow from it.
namespace swarfbook::fields {

/// How the text of a field is read, if its type alone does not decide that.
enum class Typing {
    byType,  ///< text, yes or no, a word of the enumeration, a quantity in its unit
    gear,    ///< "3", "third", "reverse", "all"
    shift,   ///< "2-3"
    gears,   ///< "1,R"
    codes,   ///< "P0733 P0735", or none
    vacuum,  ///< a pressure below that of the air: "12inHg"
    lowEnd,  ///< the first value of a range: "11-15"
    highEnd, ///< its second value
    marks,   ///< set by one of its own words alone, such as "open" for a coil's resistance
};

/// Whether the field's own phrase stands in the text of its observation, or whether another phrase
/// of that observation already says it.
enum class Told { byItself, withOthers };

struct About {
    std::string_view option{}; ///< typed as --option; "" = typed as a word after the kind
    std::string_view help{};   ///< what to type; "" = yes or no, or the possible words
    std::string_view label{};  ///< on the work sheet, and in the questions of the walk
    std::string_view said{};   ///< in the text: before a value; for yes and no, the text for yes
    std::string_view saidNo{}; ///< the text for no
    std::string_view yes{};    ///< words parted by commas that mean yes; the first one is printed
    std::string_view no{};     ///< the same for no
    std::string_view boxes{};  ///< names on the sheet for the words of an enumeration, in their
                               ///< order, parted by commas; "" = the words themselves
    Typing typing = Typing::byType;
    Told told = Told::byItself;
};

template <class Owner, class Value> struct Field {
    std::string_view name; ///< stored under
    Value Owner::*member;
    About about{};
};
template <class Owner, class Value>
constexpr Field<Owner, Value> field(std::string_view name, Value Owner::*member,
                                    const About& about) {
    return {name, member, about};
}

/// The kind and the fields of an observation's type: `kind`, and the tuple `all`.
template <class T> struct Of;

} // namespace swarfbook::fields
