# Tests that belong to no single room.
set(build_facts WAYFOLIO_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}" WAYFOLIO_BUILD_FOLDER="${PROJECT_BINARY_DIR}")

add_executable(layering_tests layering_test.cpp)
target_compile_definitions(layering_tests PRIVATE ${build_facts})
target_link_libraries(layering_tests PRIVATE catch_main Catch2::Catch2)
catch_discover_tests(layering_tests TEST_PREFIX "layering: ")
