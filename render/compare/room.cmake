# The schema of a comparison as text inside the library.
include(render/embed_text.cmake)
embed_text(room_compare render/compare/comparison.schema.json compare/comparison.hpp wayfolio::compare comparison_schema)
