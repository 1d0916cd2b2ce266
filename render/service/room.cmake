# What speaks TLS is a module: OpenSSL is loaded by the process at the door alone (render/service/door/door.cpp).
get_target_property(service_sources room_service SOURCES)
list(FILTER service_sources EXCLUDE REGEX "/service/tls/")
set_target_properties(room_service PROPERTIES SOURCES "${service_sources}")
add_library(wayfolio_tls MODULE render/service/tls/pass_on.cpp render/service/awaiting/awaiting.cpp)
target_include_directories(wayfolio_tls PRIVATE render)
target_link_libraries(wayfolio_tls PRIVATE Boost::headers OpenSSL::SSL)
set_target_properties(wayfolio_tls PROPERTIES PREFIX "" OUTPUT_NAME wayfolio-tls LIBRARY_OUTPUT_DIRECTORY ${built_data_folder})
install(TARGETS wayfolio_tls DESTINATION ${CMAKE_INSTALL_LIBDIR}/wayfolio)
# The files of the page as text inside the program; each is asked for by its place below the folder.
include(render/embed_text.cmake)
set(files_of_page "")
foreach(file IN ITEMS page.html page.css form.css page.js
             basics/ask.js basics/dom.js basics/events.js basics/json_text.js basics/printed.js basics/unpack.js
             job/approve.js job/aside.js job/columns.js job/deliver.js job/faults.js job/field.js job/figures.js job/form.js job/kept.js job/mapping.js job/pages.js job/pointing.js job/preview.js job/read_as.js
             job/readings.js job/recent.js job/schema.js job/soundness.js job/take.js job/template.js job/tests.js job/thumbs.js job/work.js
             archive/archive.js archive/batches.js archive/compare.js archive/record.js archive/verdict.js)
  get_filename_component(name ${file} NAME)
  string(REPLACE "." "_" function page_file_${name})
  embed_text(room_service render/service/page/${file} service/page/page_files.hpp wayfolio::service ${function})
  string(APPEND files_of_page "PAGE_FILE(\"/${file}\", ${function})\n")
endforeach()
file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/generated/files_of_page.inc @ONLY CONTENT "@files_of_page@")
