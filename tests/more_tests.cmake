# Tests that belong to no single room.
set(build_facts WAYFOLIO_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}" WAYFOLIO_BUILD_FOLDER="${PROJECT_BINARY_DIR}")

add_executable(layering_tests layering_test.cpp)
target_compile_definitions(layering_tests PRIVATE ${build_facts})
target_link_libraries(layering_tests PRIVATE catch_main Catch2::Catch2)
catch_discover_tests(layering_tests TEST_PREFIX "layering: " PROPERTIES LABELS quick)

add_executable(references_tests references_test.cpp)
target_compile_definitions(references_tests PRIVATE ${build_facts})
target_link_libraries(references_tests PRIVATE catch_main Catch2::Catch2)
catch_discover_tests(references_tests TEST_PREFIX "references: " PROPERTIES LABELS quick)

# A test of the program as a whole, by Debian's own Python.
function(add_program_test name script)
  add_test(NAME ${name}
           COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/${script} $<TARGET_FILE:wayfolio_program> ${PROJECT_SOURCE_DIR})
endfunction()

add_dependencies(commands_tests wayfolio_program)
add_dependencies(sheets_tests wayfolio_sheets)

# With an outside validator: Debian's python3-jsonschema, which Debian's own Python finds.
set(schema_keys_test "schemas: every key has a description, and examples that its schema accepts")
add_test(NAME ${schema_keys_test} COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/schema_keys.py ${PROJECT_SOURCE_DIR})
set_tests_properties(${schema_keys_test} PROPERTIES LABELS quick)
add_program_test("compare: what compare prints as JSON meets the shipped schema" compare_schema.py)

# Batches, as whole runs of the program.
add_program_test("batch: what it writes, what it writes again and why, shards, signals and kills" batch/batch_runs.py)

# The service, by Python's own HTTP client and by bare bytes.
add_program_test("service: what it answers is what the commands say, and each route does as it is described" service/answers_test.py)
add_program_test("service: whatever strangers send ends in its status, in time, and harms nobody else" service/hostile_test.py)
add_program_test("service: what is filed is what the commands write, once, whole, by any number of servers and through kills" service/records_test.py)
add_program_test("service: batches are drawn as the command draws them, tell their progress, and lose nothing through kills" service/batches_test.py)

# Calls that fail one at a time need the C library for themselves, where the sanitizers stand; the others run again what is tested alone.
if(NOT WAYFOLIO_SANITIZE)
  add_program_test("service: each way through its page is walked in a browser, by pointer and by keyboard" service/page_test.py)
  add_program_test("service: on its page columns get their roles by hand, and workbooks are asked for their sheets" service/page_exports_test.py)
  add_program_test("service: its page tells limits before sending, opens samples, searches the archive, and lists tests, pages and fingerprint" service/page_service_test.py)
  add_program_test("service: on its page batches are posted, followed and cancelled, and their results saved" service/page_batches_test.py)
  add_program_test("service: on its page a job is filled in, kept, undone and looked at by two windows, and loses nothing to a bad network" service/page_job_test.py)
  add_program_test("service: on its page reports and records are checked, filed, found and compared" service/page_records_test.py)
  add_library(failing_calls MODULE failing/failing_calls.cpp)
  target_link_libraries(failing_calls PRIVATE ${CMAKE_DL_LIBS})
  add_test(NAME "commands: whichever call fails, what was there stays or what is new is whole, and a sentence says what failed"
           COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/failing/failing_calls.py $<TARGET_FILE:wayfolio_program>
                   $<TARGET_FILE:failing_calls> ${PROJECT_SOURCE_DIR})
  add_program_test("schemas: what catalogue, history, verify and conformance print as JSON meets the shipped schemas" printed_schemas.py)
  add_program_test("service: over TLS it answers as without, and one process alone holds the key" service/tls_test.py)
  add_program_test("service: behind the sample configurations of two proxies it answers over TLS as it does without" service/proxies_test.py)
  add_test(NAME "packages: what the Debian packages hold draws the same report"
           COMMAND /usr/bin/python3 -B ${CMAKE_CURRENT_SOURCE_DIR}/packages.py ${PROJECT_BINARY_DIR} ${PROJECT_SOURCE_DIR})
  add_test(NAME "install: an outside program finds the library and writes the same report"
           COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/consumer/run.sh ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR} ${CMAKE_CXX_COMPILER})
endif()
