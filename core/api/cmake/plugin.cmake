# panel_dossier_add_plugin(NAME [FOLDER dir]): makes the plugin NAME of the folder, by default NAME beside the caller.
#
# A plugin is a shared object beside its folder of data tables and declarations, each of them optional:
#   plugins/NAME.so and plugins/NAME/{*.csv,*.json} in the build tree, lib/panel-dossier/plugins/ once installed.
# Its sources are all below the folder but entry.cpp, which holds PANEL_DOSSIER_PLUGIN, and what lies in tests/; they
# include core/api and nothing else of the program, and each other from the folder. Targets: NAME, NAME_calculations for
# tests, and NAME_test with its ctest entry where tests/ holds sources and BUILD_TESTING is on; they get the path of the
# shared object as PANEL_DOSSIER_TESTED_PLUGIN.
function(panel_dossier_add_plugin name)
  cmake_parse_arguments(PLUGIN "" "FOLDER" "" ${ARGN})
  if(NOT PLUGIN_FOLDER)
    set(PLUGIN_FOLDER ${CMAKE_CURRENT_SOURCE_DIR}/${name})
  endif()
  get_filename_component(PLUGIN_FOLDER ${PLUGIN_FOLDER} ABSOLUTE)
  if(NOT EXISTS ${PLUGIN_FOLDER}/entry.cpp)
    message(FATAL_ERROR "plugin '${name}': ${PLUGIN_FOLDER} has no entry.cpp; give the plugin's folder with FOLDER")
  endif()
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS RELATIVE ${PLUGIN_FOLDER} ${PLUGIN_FOLDER}/*.cpp)
  list(FILTER sources EXCLUDE REGEX "^(entry\\.cpp$|tests/|build/)")
  list(TRANSFORM sources PREPEND "${PLUGIN_FOLDER}/")
  if(sources)
    # The calculations alone, so that tests can call them without loading the shared object.
    add_library(${name}_calculations STATIC ${sources})
    set_target_properties(${name}_calculations PROPERTIES POSITION_INDEPENDENT_CODE ON)
    target_include_directories(${name}_calculations PUBLIC ${PLUGIN_FOLDER})
    target_link_libraries(${name}_calculations PUBLIC panel-dossier::api)
  else()
    add_library(${name}_calculations INTERFACE)
    target_link_libraries(${name}_calculations INTERFACE panel-dossier::api)
  endif()
  add_library(${name} MODULE ${PLUGIN_FOLDER}/entry.cpp)
  set(output ${CMAKE_LIBRARY_OUTPUT_DIRECTORY})
  if(NOT output)
    set(output ${CMAKE_BINARY_DIR}/plugins)
  endif()
  set_target_properties(${name} PROPERTIES PREFIX "" LIBRARY_OUTPUT_DIRECTORY ${output}
    CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON)
  target_link_libraries(${name} PRIVATE ${name}_calculations)
  file(GLOB_RECURSE test_sources CONFIGURE_DEPENDS ${PLUGIN_FOLDER}/tests/*.cpp)
  if(test_sources AND BUILD_TESTING)
    add_executable(${name}_test ${test_sources})
    target_link_libraries(${name}_test PRIVATE ${name}_calculations ${CMAKE_DL_LIBS})
    target_compile_definitions(${name}_test PRIVATE PANEL_DOSSIER_TESTED_PLUGIN="$<TARGET_FILE:${name}>")
    add_dependencies(${name}_test ${name})
    add_test(NAME ${name} COMMAND ${name}_test)
  endif()
  install(TARGETS ${name} DESTINATION ${CMAKE_INSTALL_LIBDIR}/panel-dossier/plugins)
  file(GLOB files CONFIGURE_DEPENDS ${PLUGIN_FOLDER}/data/*.csv ${PLUGIN_FOLDER}/*.json ${PLUGIN_FOLDER}/properties.csv
    ${PLUGIN_FOLDER}/guidance.csv)
  if(NOT files)
    return()
  endif()
  add_custom_command(TARGET ${name} POST_BUILD
    COMMAND ${CMAKE_COMMAND} -E make_directory ${output}/${name}
    COMMAND ${CMAKE_COMMAND} -E copy ${files} ${output}/${name})
  set_property(TARGET ${name} APPEND PROPERTY LINK_DEPENDS ${files})
  install(FILES ${files} DESTINATION ${CMAKE_INSTALL_LIBDIR}/panel-dossier/plugins/${name})
endfunction()
