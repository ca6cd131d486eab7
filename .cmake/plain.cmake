# What tests/run builds: as dev.cmake, but quick from nothing.
include(${CMAKE_CURRENT_LIST_DIR}/dev.cmake)
include(${CMAKE_CURRENT_LIST_DIR}/unity.cmake)
