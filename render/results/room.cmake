# The schema of result documents as text inside the library.
include(render/embed_text.cmake)
embed_text(room_results render/results/result-document.schema.json results/read_document.hpp wayfolio::results document_schema)
