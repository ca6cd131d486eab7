set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
# At -O1 the tests take much less time than the longer compilation costs.
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(SWARFBOOK_WERROR ON CACHE BOOL "")
set(SWARFBOOK_SANITIZE ON CACHE BOOL "")
set(SWARFBOOK_MANUAL OFF CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/mold.cmake)
