# What tests/run builds first: the program, and the tests that start it or measure photos at length.
# What works on pictures has the flags of a release; what works on words is not optimised, which saves
# a third of the build. The other tests run in the build with sanitizers alone; continuous integration
# runs all of them with the flags of a release, too.
# clang compiles it in two thirds of g++'s time. Who names another compiler in CXX gets that one.
if(NOT DEFINED ENV{CXX})
  set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
  set(SWARFBOOK_PRECOMPILED ON CACHE BOOL "")
endif()
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(SWARFBOOK_WERROR ON CACHE BOOL "")
set(SWARFBOOK_QUICK_WORDS ON CACHE BOOL "")
set(SWARFBOOK_TEST_FOLDERS blackbox cli CACHE STRING "")
set(SWARFBOOK_CLI_CASES program CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/mold.cmake)
