# Jobs with planted faults, which the bench program draws too.
target_sources(evaluate_tests PRIVATE support/fault_jobs.cpp)

# The evaluation output against its schema, with an outside validator: Debian's python3-jsonschema, which Debian's own Python finds.
add_executable(evaluation_schema evaluate/evaluation_schema.cpp)
target_include_directories(evaluation_schema PRIVATE ${PROJECT_SOURCE_DIR}/render)
target_link_libraries(evaluation_schema PRIVATE room_evaluate room_document room_input room_units)
add_test(NAME "evaluate: every evaluation of samples and good documents meets the shipped schema"
         COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/evaluate/evaluation_schema.py $<TARGET_FILE:evaluation_schema> ${PROJECT_SOURCE_DIR})

# What check finds against its schema, likewise.
add_executable(findings_schema evaluate/findings_schema.cpp)
target_include_directories(findings_schema PRIVATE ${PROJECT_SOURCE_DIR}/render)
target_link_libraries(findings_schema PRIVATE room_evaluate room_document room_input room_units)
add_test(NAME "evaluate: the findings of samples, good and awkward documents meet the shipped schema, which lists every code"
         COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/evaluate/findings_schema.py $<TARGET_FILE:findings_schema> ${PROJECT_SOURCE_DIR})
