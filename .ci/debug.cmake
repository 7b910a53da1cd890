# For stepping through the code: file by file, with full debug information.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
