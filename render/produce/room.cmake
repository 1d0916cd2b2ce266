# The digest of what the program is built from, made while building: one small file is compiled when a source has changed.
set(build_digest ${PROJECT_BINARY_DIR}/generated/build_digest.cpp)
file(GLOB_RECURSE digested CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/render/*.cpp ${PROJECT_SOURCE_DIR}/render/*.hpp
  ${PROJECT_SOURCE_DIR}/render/*.json ${PROJECT_SOURCE_DIR}/layouts/*.json)
add_custom_command(OUTPUT ${build_digest}
  COMMAND ${CMAKE_COMMAND} -DROOT=${PROJECT_SOURCE_DIR} -DOUTPUT=${build_digest} -P ${PROJECT_SOURCE_DIR}/render/build_digest.cmake
  DEPENDS ${digested} ${PROJECT_SOURCE_DIR}/render/build_digest.cmake
  COMMENT "Digest of the sources")
target_sources(room_produce PRIVATE ${build_digest})
set_source_files_properties(${build_digest} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
