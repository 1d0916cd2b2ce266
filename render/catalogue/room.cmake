# The schemas of what catalogue and history print, as text inside the library.
include(render/embed_text.cmake)
embed_text(room_catalogue render/catalogue/catalogue.schema.json catalogue/query.hpp wayfolio::catalogue catalogue_schema)
embed_text(room_catalogue render/catalogue/history.schema.json catalogue/history.hpp wayfolio::catalogue history_schema)
