# The schema of a mapping as text inside the library.
include(render/embed_text.cmake)
embed_text(room_gather render/gather/mapping.schema.json gather/mapping/mapping.hpp wayfolio::gather mapping_schema)
