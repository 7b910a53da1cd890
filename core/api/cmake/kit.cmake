# The kit that plugins are built with: headers, library, testing support and CMake package. A change of one of its headers
# or of the compiler gives it another hash, by which the program refuses plugins of another kit.
file(GLOB_RECURSE kit_headers CONFIGURE_DEPENDS RELATIVE ${PROJECT_SOURCE_DIR} ${CMAKE_CURRENT_LIST_DIR}/../*.h)
# What is compiled into tests alone is not shared with the program.
list(FILTER kit_headers EXCLUDE REGEX "^core/api/testing/")
list(SORT kit_headers)
set(kit_text "${CMAKE_CXX_COMPILER_ID} ${CMAKE_CXX_COMPILER_VERSION} ${CMAKE_CXX_STANDARD}")
foreach(header IN LISTS kit_headers)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${header})
  file(SHA256 ${PROJECT_SOURCE_DIR}/${header} header_hash)
  string(APPEND kit_text " ${header} ${header_hash}")
endforeach()
string(SHA256 PANEL_DOSSIER_KIT_HASH "${kit_text}")
configure_file(${CMAKE_CURRENT_LIST_DIR}/../kit.h.in ${PROJECT_BINARY_DIR}/kit/core/api/kit.h @ONLY)
target_include_directories(pd_api PUBLIC $<BUILD_INTERFACE:${PROJECT_BINARY_DIR}/kit>)
add_library(panel-dossier::api ALIAS pd_api)

include(CMakePackageConfigHelpers)
set(kit_include ${CMAKE_INSTALL_INCLUDEDIR}/panel-dossier)
set(kit_cmake ${CMAKE_INSTALL_LIBDIR}/cmake/panel-dossier)
set_target_properties(pd_api PROPERTIES EXPORT_NAME api)
target_include_directories(pd_api INTERFACE $<INSTALL_INTERFACE:${kit_include}>)
install(TARGETS pd_api EXPORT panel-dossier-targets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}/panel-dossier)
install(EXPORT panel-dossier-targets NAMESPACE panel-dossier:: DESTINATION ${kit_cmake})
install(DIRECTORY ${CMAKE_CURRENT_LIST_DIR}/../ DESTINATION ${kit_include}/core/api FILES_MATCHING PATTERN "*.h"
  PATTERN cmake EXCLUDE)
install(FILES ${PROJECT_BINARY_DIR}/kit/core/api/kit.h DESTINATION ${kit_include}/core/api)
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/panel-dossierConfig.cmake.in
  ${PROJECT_BINARY_DIR}/kit/panel-dossierConfig.cmake INSTALL_DESTINATION ${kit_cmake})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/kit/panel-dossierConfigVersion.cmake
  VERSION ${PROJECT_VERSION} COMPATIBILITY ExactVersion)
install(FILES ${PROJECT_BINARY_DIR}/kit/panel-dossierConfig.cmake ${PROJECT_BINARY_DIR}/kit/panel-dossierConfigVersion.cmake
  ${CMAKE_CURRENT_LIST_DIR}/plugin.cmake DESTINATION ${kit_cmake})
# What `panel-dossier scaffold` makes new checks and plugins from.
install(DIRECTORY ${CMAKE_CURRENT_LIST_DIR}/../scaffold DESTINATION ${CMAKE_INSTALL_DATADIR}/panel-dossier)
