# Where the files that come with the program lie: fonts.cmake puts the fonts into the build's folder, the layouts are those of the source.
include(GNUInstallDirs)
file(CREATE_LINK ${PROJECT_SOURCE_DIR}/layouts ${built_data_folder}/layouts SYMBOLIC)
file(RELATIVE_PATH data_from_program ${CMAKE_INSTALL_FULL_BINDIR} ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio)
file(RELATIVE_PATH data_from_library ${CMAKE_INSTALL_FULL_LIBDIR} ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio)
configure_file(render/input/data_places.hpp.in ${PROJECT_BINARY_DIR}/generated/data_places.hpp @ONLY)
