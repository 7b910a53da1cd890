# Finds undefined behaviour. A stage or plugin is compiled as one, and a folder of tests.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1 -finline-small-functions" CACHE STRING "")
set(PANEL_DOSSIER_UNITY ON CACHE BOOL "")
set(PANEL_DOSSIER_UNITY_STAGES ON CACHE BOOL "")
set(PANEL_DOSSIER_UNITY_TESTS ON CACHE BOOL "")
# The checks of the tests are many and run once each: optimising them costs more than it saves.
set(PANEL_DOSSIER_TEST_OPTIONS "-O0" CACHE STRING "")
set(PANEL_DOSSIER_SANITIZERS "address,undefined" CACHE STRING "")
set(PANEL_DOSSIER_WERROR ON CACHE BOOL "")
