# Speed is looked at, never tested: see DEVELOPERS.md.
function(add_bench name)  # NAME SOURCES ... LINKS ...: a program beside wayfolio
    cmake_parse_arguments(bench "" "" "SOURCES;LINKS" ${ARGN})
    string(REPLACE - _ target ${name})
    add_executable(${target} ${bench_SOURCES})
    set_target_properties(${target} PROPERTIES OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
    target_include_directories(${target} PRIVATE ${PROJECT_SOURCE_DIR}/render ${CMAKE_CURRENT_SOURCE_DIR})
    target_link_libraries(${target} PRIVATE ${bench_LINKS})
endfunction()

set(evaluating room_evaluate room_document room_input room_units)
add_bench(wayfolio-bench SOURCES bench/main.cpp LINKS wayfolio)
add_bench(wayfolio-archive SOURCES bench/archive_maker.cpp LINKS wayfolio)
add_bench(wayfolio-scatter SOURCES bench/scatter_table.cpp LINKS ${evaluating} Boost::headers)
add_bench(wayfolio-rates SOURCES bench/rates_table.cpp support/fault_jobs.cpp LINKS ${evaluating} Boost::headers)
add_bench(wayfolio-trace-speed SOURCES bench/trace_speed.cpp LINKS ${evaluating})
add_bench(wayfolio-gather-speed SOURCES bench/gather_speed.cpp LINKS room_gather room_document room_input room_units PkgConfig::orcus)

# What Cairo alone costs for the same pages: nothing of text/ and output/ in it.
pkg_check_modules(floor REQUIRED IMPORTED_TARGET cairo-pdf cairo-svg cairo-ft freetype2)
add_bench(wayfolio-pages SOURCES bench/floor/keep_pages.cpp bench/floor/frame_file.cpp LINKS wayfolio)
add_bench(wayfolio-floor SOURCES bench/floor/paint.cpp bench/floor/frame_file.cpp LINKS PkgConfig::floor fmt::fmt)

# What a document costs that is only parsed.
add_bench(wayfolio-parse SOURCES bench/parse_alone.cpp LINKS nlohmann_json::nlohmann_json)
