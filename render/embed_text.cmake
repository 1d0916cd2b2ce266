# embed_text(target file header namespace function): compiles a text file into `target` as what `std::string_view namespace::function()`,
# declared in `header`, returns. Split, for a C++ compiler need not take a literal of more than 64 KiB.
include_guard(GLOBAL)
function(embed_text target file header namespace function)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${file})
  file(READ ${PROJECT_SOURCE_DIR}/${file} rest)
  set(literals "")
  while(NOT rest STREQUAL "")
    string(SUBSTRING "${rest}" 0 8000 part)
    string(LENGTH "${part}" length)
    string(SUBSTRING "${rest}" ${length} -1 rest)
    string(APPEND literals "    R\"embedded(${part})embedded\"\n")
  endwhile()
  set(source ${PROJECT_BINARY_DIR}/generated/${function}.cpp)
  file(CONFIGURE OUTPUT ${source} @ONLY CONTENT "// Written by CMake from @file@.\n#include \"@header@\"\n
namespace @namespace@ {\n\nstd::string_view @function@() {\n    return\n@literals@        ;\n}\n\n}  // namespace @namespace@\n")
  target_sources(${target} PRIVATE ${source})
endfunction()
