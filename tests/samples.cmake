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
