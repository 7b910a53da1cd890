# What people run: optimised, without debug information, and a room of sources compiled as one.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
set(PANEL_DOSSIER_UNITY ON CACHE BOOL "")
set(PANEL_DOSSIER_UNITY_TESTS ON CACHE BOOL "")
# The tests run once: optimising what they check with costs more than it saves.
set(PANEL_DOSSIER_TEST_OPTIONS "-O0" CACHE STRING "")
