# The checker as a small library of its own: it knows nothing of how the files are made.
include(GNUInstallDirs)
include(render/embed_text.cmake)
embed_text(room_conformance render/conformance/conformance.schema.json conformance/conformance.hpp wayfolio::conformance conformance_schema)
add_library(wayfolio_conformance STATIC $<TARGET_OBJECTS:room_conformance> $<TARGET_OBJECTS:room_unpack>)
target_link_libraries(wayfolio_conformance PUBLIC ${conformance_links})
target_include_directories(wayfolio_conformance INTERFACE
  $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/render> $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/wayfolio>)
install(TARGETS wayfolio_conformance EXPORT wayfolio DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
