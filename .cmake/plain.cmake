# What tests/run builds: as dev.cmake, but quick from nothing.
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1" CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/dev.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
