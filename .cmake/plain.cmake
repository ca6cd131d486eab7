# What tests/run builds first: the program, and the tests that run the program, measure photos at
# length or repeat much. What works on pictures has the flags of a release; what works on words is
# optimised less, which saves a sixth of the build. The other tests run in the build with sanitizers
# alone; continuous integration runs all of them with the flags of a release, too.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(SWARFBOOK_WERROR ON CACHE BOOL "")
set(SWARFBOOK_QUICK_WORDS ON CACHE BOOL "")
set(SWARFBOOK_TEST_FOLDERS assess blackbox cli elimination record CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/mold.cmake)
