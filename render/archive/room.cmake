# The schema of a verification as text inside the library.
include(render/embed_text.cmake)
embed_text(room_archive render/archive/verification.schema.json archive/verify/verify.hpp wayfolio::archive verification_schema)
