# The schema of result documents as text inside the library.
include(render/embed_text.cmake)
embed_text(room_document render/document/result-document.schema.json document/read_document.hpp wayfolio::document document_schema)
