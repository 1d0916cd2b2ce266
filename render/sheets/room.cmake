# A module that the program loads when a spreadsheet comes (render/gather/exports/read_sheet.cpp), and then liborcus with it.
add_library(wayfolio_sheets MODULE $<TARGET_OBJECTS:room_sheets>)
target_link_libraries(wayfolio_sheets PRIVATE PkgConfig::orcus)
set_target_properties(wayfolio_sheets PROPERTIES PREFIX "" OUTPUT_NAME wayfolio-sheets LIBRARY_OUTPUT_DIRECTORY ${built_data_folder})
install(TARGETS wayfolio_sheets DESTINATION ${CMAKE_INSTALL_LIBDIR}/wayfolio)
