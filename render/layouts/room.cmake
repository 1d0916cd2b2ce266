# The shipped layouts' places, and the schema of layouts as text inside the library.
include(GNUInstallDirs)
include(render/embed_text.cmake)
configure_file(render/layouts/layouts_places.hpp.in ${PROJECT_BINARY_DIR}/generated/layouts_places.hpp @ONLY)
embed_text(room_layouts layouts/layout.schema.json layouts/layout.hpp wayfolio::layouts layout_schema)
