# Finds undefined behaviour, and compiles file by file, so that every source is seen to include what it uses.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1" CACHE STRING "")
set(PANEL_DOSSIER_SANITIZERS "address,undefined" CACHE STRING "")
set(PANEL_DOSSIER_WERROR ON CACHE BOOL "")
