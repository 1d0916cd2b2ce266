# The schema of layouts as text inside the library.
include(render/embed_text.cmake)
embed_text(room_layouts layouts/layout.schema.json layouts/layout.hpp wayfolio::layouts layout_schema)
