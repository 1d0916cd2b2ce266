# Reader against schema, with an outside validator: Debian's python3-jsonschema, which Debian's own Python finds.
add_executable(schema_parity document/schema_parity.cpp)
target_include_directories(schema_parity PRIVATE ${PROJECT_SOURCE_DIR}/render)
target_link_libraries(schema_parity PRIVATE room_gather room_layouts room_frame room_document room_input room_units)
add_test(NAME "document: reader and schema agree on every sample and broken file"
         COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/document/schema_parity.py $<TARGET_FILE:schema_parity> ${PROJECT_SOURCE_DIR})
