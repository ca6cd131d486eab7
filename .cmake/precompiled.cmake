# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0

# What most files of any folder include.
set(SWARFBOOK_COMMON_HEADERS <algorithm> <array> <charconv> <chrono> <cmath> <cstdint> <cstring> <filesystem>
    <fstream> <functional> <iostream> <map> <memory> <numeric> <optional> <set> <span> <sstream>
    <stdexcept> <string> <string_view> <tuple> <utility> <variant> <vector>
    <fmt/format.h> <fmt/ranges.h> <nlohmann/json.hpp> <opencv2/core.hpp>)

if(SWARFBOOK_PRECOMPILED)
  add_compile_options(-pthread) # some libraries ask for it, and all who share headers must agree
endif()

# swarfbook_precompiled(TARGET SET): TARGET takes what most files include from headers that were read
# once for all targets of that SET, which share their flags. Files name what they include all the
# same: the builds that compile each file alone have no precompiled headers.
function(swarfbook_precompiled target set)
  if(SWARFBOOK_PRECOMPILED)
    target_precompile_headers(${target} REUSE_FROM swarfbook_headers_${set})
  endif()
endfunction()

# swarfbook_precompile(SET [OPTIONS ...] [USES library ...] HEADERS ...): makes a SET.
function(swarfbook_precompile set)
  if(NOT SWARFBOOK_PRECOMPILED)
    return()
  endif()
  cmake_parse_arguments(ARG "" "" "OPTIONS;USES;HEADERS" ${ARGN})
  add_library(swarfbook_headers_${set} OBJECT ${PROJECT_SOURCE_DIR}/.cmake/precompiled.cpp)
  target_include_directories(swarfbook_headers_${set} PRIVATE ${PROJECT_SOURCE_DIR}/src)
  target_link_libraries(swarfbook_headers_${set} PRIVATE ${ARG_USES})
  swarfbook_warnings(swarfbook_headers_${set})
  target_compile_options(swarfbook_headers_${set} PRIVATE ${ARG_OPTIONS}
    -Xclang -fno-pch-timestamp) # so that the compiler cache knows them again
  target_precompile_headers(swarfbook_headers_${set} PRIVATE ${ARG_HEADERS})
endfunction()
