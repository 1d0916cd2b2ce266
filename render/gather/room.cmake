# The schema of a mapping as text inside the library.
include(render/embed_text.cmake)
embed_text(room_gather render/gather/mapping.schema.json gather/mapping/mapping.hpp wayfolio::gather mapping_schema)
# Where the module that reads spreadsheets is installed, from the folder of the data.
include(GNUInstallDirs)
file(RELATIVE_PATH modules_from_data ${CMAKE_INSTALL_FULL_DATADIR}/wayfolio ${CMAKE_INSTALL_FULL_LIBDIR}/wayfolio)
target_compile_definitions(room_gather PRIVATE WAYFOLIO_MODULES_FROM_DATA="${modules_from_data}")
target_link_libraries(room_gather PUBLIC ${CMAKE_DL_LIBS})
