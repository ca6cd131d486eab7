# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
# Writes OUT, a source file that holds FILES (names in FOLDER, parted by commas) as they are.
string(REPLACE "," ";" files "${FILES}")
set(entries "")
foreach(name ${files})
  file(READ "${FOLDER}/${name}" content)
  string(LENGTH "${content}" length)
  if(length GREATER 60000 OR content MATCHES "\\)embedded\"")
    message(FATAL_ERROR "${name} does not fit into one string of the source")
  endif()
  if(name MATCHES "\\.css$")
    set(type "text/css; charset=utf-8")
  elseif(name MATCHES "\\.js$")
    set(type "text/javascript; charset=utf-8")
  elseif(name MATCHES "\\.svg$")
    set(type "image/svg+xml")
  else()
    message(FATAL_ERROR "${name} is neither a style, a script nor a picture")
  endif()
  string(APPEND entries "    {\"${name}\", \"${type}\", R\"embedded(${content})embedded\"},\n")
endforeach()
file(WRITE "${OUT}.new" "// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include \"web/embedded_files.h\"

namespace swarfbook::web {
namespace {

constexpr EmbeddedFile embedded[] = {
${entries}};

} // namespace

std::span<const EmbeddedFile> embeddedFiles() {
    return embedded;
}

} // namespace swarfbook::web
")
file(COPY_FILE "${OUT}.new" "${OUT}" ONLY_IF_DIFFERENT)
file(REMOVE "${OUT}.new")
