# The generator of the sample documents, the test that the committed ones are what it makes, and the large ones for the tests.
file(GLOB sample_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/support/samples/*.cpp)
add_executable(wayfolio_samples ${CMAKE_CURRENT_SOURCE_DIR}/support/sample_maker.cpp ${sample_sources})
target_include_directories(wayfolio_samples PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(wayfolio_samples PRIVATE nlohmann_json::nlohmann_json)

add_test(NAME "samples: sample-results/ is what the generator makes"
  COMMAND wayfolio_samples compare shown ${PROJECT_SOURCE_DIR}/sample-results)
add_test(NAME "samples: the awkward documents are what the generator makes"
  COMMAND wayfolio_samples compare awkward ${PROJECT_SOURCE_DIR}/tests/golden/awkward)

add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/large-samples.stamp
  COMMAND wayfolio_samples write large ${PROJECT_BINARY_DIR}/large-samples
  COMMAND ${CMAKE_COMMAND} -E touch ${PROJECT_BINARY_DIR}/large-samples.stamp
  DEPENDS wayfolio_samples COMMENT "Making the large sample documents" VERBATIM)
add_custom_target(wayfolio_large_samples ALL DEPENDS ${PROJECT_BINARY_DIR}/large-samples.stamp)

# Every awkward and large document is read and evaluated; the program ends with an error at the first that is not.
set(evaluated_samples ${PROJECT_BINARY_DIR}/evaluated-samples)
file(MAKE_DIRECTORY ${evaluated_samples})
file(GLOB awkward_documents CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/golden/awkward/*.json)
add_test(NAME "samples: awkward and large documents are read and evaluated"
  COMMAND evaluation_schema ${evaluated_samples} ${awkward_documents}
          ${PROJECT_BINARY_DIR}/large-samples/200-targets-10-runs.json ${PROJECT_BINARY_DIR}/large-samples/trace-of-10000.json)
