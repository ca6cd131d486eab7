set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
# clang compiles code with sanitizers in half of g++'s time. What works on pictures is optimised
# nevertheless (src/CMakeLists.txt). Who names another compiler in CXX gets that one.
if(NOT DEFINED ENV{CXX})
  set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
  set(SWARFBOOK_PRECOMPILED ON CACHE BOOL "")
endif()
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O0 -g1" CACHE STRING "")
set(SWARFBOOK_WERROR ON CACHE BOOL "")
set(SWARFBOOK_SANITIZE ON CACHE BOOL "")
set(SWARFBOOK_MANUAL OFF CACHE BOOL "")
set(SWARFBOOK_SHORT_TESTS ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/mold.cmake)
