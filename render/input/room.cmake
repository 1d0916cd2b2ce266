# Where the files that come with the program lie: fonts.cmake puts the fonts into the build's folder, the layouts are those of the source.
include(GNUInstallDirs)
file(CREATE_LINK ${PROJECT_SOURCE_DIR}/layouts ${built_data_folder}/layouts SYMBOLIC)
file(RELATIVE_PATH data_from_program ${CMAKE_INSTALL_FULL_BINDIR} ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio)
file(RELATIVE_PATH data_from_library ${CMAKE_INSTALL_FULL_LIBDIR} ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio)
file(RELATIVE_PATH data_from_module ${CMAKE_INSTALL_FULL_LIBDIR}/wayfolio ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio)
configure_file(render/input/data_places.hpp.in ${PROJECT_BINARY_DIR}/generated/data_places.hpp @ONLY)
# Where modules are installed, from the folder of the data.
file(RELATIVE_PATH modules_from_data ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio ${CMAKE_INSTALL_FULL_LIBDIR}/wayfolio)
target_compile_definitions(room_input PRIVATE WAYFOLIO_MODULES_FROM_DATA="${modules_from_data}")
target_link_libraries(room_input PUBLIC ${CMAKE_DL_LIBS})
