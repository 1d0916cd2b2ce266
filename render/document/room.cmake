# The schemas of result documents and of facts as text inside the library.
include(render/embed_text.cmake)
embed_text(room_document render/document/result-document.schema.json document/read_document.hpp wayfolio::document document_schema)
embed_text(room_document render/document/facts.schema.json document/facts.hpp wayfolio::document facts_schema)
