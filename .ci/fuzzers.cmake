# What the fuzzers run: libFuzzer is clang's, and every byte that is read out of place ends the run. By folder, so that
# all cores have work. Without optimising the build takes 40 % of the time and an export eight times as long.
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1" CACHE STRING "")
set(PANEL_DOSSIER_UNITY ON CACHE BOOL "")
set(PANEL_DOSSIER_FUZZERS ON CACHE BOOL "")
set(BUILD_TESTING OFF CACHE BOOL "")
