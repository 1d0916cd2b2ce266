# Run while building, with -DROOT and -DOUTPUT: writes OUTPUT, a C++ file with the SHA-256 over all that decides words and bytes: sources,
# schemas and layouts, each by its path in the project and its own SHA-256, in the order of the paths. The same sources give the same digest
# on every machine and in every folder. A file that says the same already is left alone, so that nothing is compiled again.
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/render/*.cpp ${ROOT}/render/*.hpp ${ROOT}/render/*.json ${ROOT}/layouts/*.json)
list(SORT files)
set(listed "")
foreach(file IN LISTS files)
  file(SHA256 ${ROOT}/${file} digest)
  string(APPEND listed "${digest}  ${file}\n")
endforeach()
string(SHA256 digest "${listed}")
file(CONFIGURE OUTPUT ${OUTPUT} @ONLY CONTENT "// Written by render/build_digest.cmake.\n#include \"produce/build_digest.hpp\"\n
namespace wayfolio::produce {\n\nstd::string_view build_digest() { return \"@digest@\"; }\n\n}  // namespace wayfolio::produce\n")
