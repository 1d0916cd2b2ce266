# Strangers' bytes. The program with the seeded changes is built everywhere and replays in the tests what is known; where the compiler is
# clang and the sanitizers are on, libFuzzer's is built too (see DEVELOPERS.md).
set(fuzz_targets fuzz/targets.cpp)
add_executable(wayfolio_fuzz fuzz/main.cpp fuzz/mutator.cpp ${fuzz_targets} $<$<BOOL:${WAYFOLIO_SANITIZE}>:support/known_leaks.cpp>)
set_target_properties(wayfolio_fuzz PROPERTIES OUTPUT_NAME wayfolio-fuzz RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
set(fuzz_programs wayfolio_fuzz)
if(WAYFOLIO_SANITIZE AND CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  add_executable(wayfolio_libfuzzer fuzz/libfuzzer.cpp ${fuzz_targets})
  set_target_properties(wayfolio_libfuzzer PROPERTIES OUTPUT_NAME wayfolio-libfuzzer RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
  target_link_options(wayfolio_libfuzzer PRIVATE -fsanitize=fuzzer)
  list(APPEND fuzz_programs wayfolio_libfuzzer)
endif()
foreach(program IN LISTS fuzz_programs)
  target_compile_definitions(${program} PRIVATE WAYFOLIO_SOURCE_FOLDER="${PROJECT_SOURCE_DIR}")
  target_include_directories(${program} PRIVATE ${PROJECT_SOURCE_DIR}/render ${CMAKE_CURRENT_SOURCE_DIR})
  target_link_libraries(${program} PRIVATE wayfolio wayfolio_conformance PkgConfig::qpdf)
endforeach()
add_test(NAME "fuzz: what once broke the program, and changed inputs for ten seconds, end in results or told faults"
         COMMAND wayfolio_fuzz all 2.5 WORKING_DIRECTORY ${CMAKE_CURRENT_BINARY_DIR})
