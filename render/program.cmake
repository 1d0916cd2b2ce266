# The program: a small one in front, which answers by itself what needs no library that draws (render/front/own_command.hpp), and a module
# with all verbs, which it loads for everything else. Loading those libraries takes longer than evaluating a document.
include(GNUInstallDirs)
add_library(wayfolio_commands MODULE $<TARGET_OBJECTS:room_commands>)
target_link_libraries(wayfolio_commands PRIVATE room_service room_front ${commands_links} wayfolio wayfolio_conformance)
set_target_properties(wayfolio_commands PROPERTIES PREFIX "" OUTPUT_NAME wayfolio-commands LIBRARY_OUTPUT_DIRECTORY ${built_data_folder})
# What both have, each keeps for itself: nothing of one shall be taken for the other's.
set(only_entry ${PROJECT_BINARY_DIR}/generated/only_entry.map)
file(CONFIGURE OUTPUT ${only_entry} CONTENT "{ global: wayfolio_run_command; local: *; };\n")
target_link_options(wayfolio_commands PRIVATE -Wl,--version-script=${only_entry})
install(TARGETS wayfolio_commands DESTINATION ${CMAKE_INSTALL_LIBDIR}/wayfolio)

add_executable(write_program_help render/write_program_help.cpp)
target_link_libraries(write_program_help PRIVATE ${CMAKE_DL_LIBS})
set(program_help ${PROJECT_BINARY_DIR}/generated/program_help.inc)
add_custom_command(OUTPUT ${program_help} DEPENDS wayfolio_commands
                   COMMAND write_program_help $<TARGET_FILE:wayfolio_commands> ${program_help})

add_executable(wayfolio_program render/main.cpp ${program_help})
set_target_properties(wayfolio_program PROPERTIES OUTPUT_NAME wayfolio)
target_include_directories(wayfolio_program PRIVATE render ${PROJECT_BINARY_DIR}/generated)
foreach(room IN ITEMS front LISTS front_below)
  target_link_libraries(wayfolio_program PRIVATE room_${room})
endforeach()
add_dependencies(wayfolio_program wayfolio_sheets wayfolio_tls)
if(WAYFOLIO_SANITIZE)
  foreach(program IN ITEMS wayfolio_program write_program_help)
    target_sources(${program} PRIVATE tests/support/known_leaks.cpp)
  endforeach()
endif()
