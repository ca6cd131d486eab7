# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
#
# cmake -DSOURCES=FOLDER -DVERSION=0.1.0 -DOUT=HEADER -P program_sources.cmake
# Writes a header with one sum over the version and the content of every source in the folder.
file(GLOB_RECURSE sources RELATIVE ${SOURCES} ${SOURCES}/*.cpp ${SOURCES}/*.h)
list(SORT sources)
set(all "${VERSION}")
foreach(source ${sources})
  file(SHA256 ${SOURCES}/${source} sum)
  string(APPEND all "\n${source} ${sum}")
endforeach()
string(SHA256 sum "${all}")
file(WRITE ${OUT} "#pragma once\n\n/// SHA-256 over the program's version and sources.\n"
  "inline constexpr const char* programSources = \"${sum}\";\n")
