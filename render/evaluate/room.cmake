# The schema of the evaluation output as text inside the library.
include(render/embed_text.cmake)
embed_text(room_evaluate render/evaluate/evaluation.schema.json evaluate/written/evaluation_json.hpp wayfolio::evaluate evaluation_schema)
# And that of what check finds.
embed_text(room_evaluate render/evaluate/findings.schema.json evaluate/written/evaluation_json.hpp wayfolio::evaluate findings_schema)
