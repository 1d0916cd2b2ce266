# The files of the page as text inside the program.
include(render/embed_text.cmake)
foreach(file IN ITEMS page.html page.css page.js archive.js ask.js compare.js dom.js faults.js figures.js json_text.js kept.js pages.js preview.js printed.js readings.js record.js)
  string(REPLACE "." "_" function ${file})
  embed_text(room_service render/service/page/${file} service/page/page_files.hpp wayfolio::service ${function})
endforeach()
