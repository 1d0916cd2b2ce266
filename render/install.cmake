# The version in the program; and what `cmake --install` puts where, for users of the program and of the library.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set_source_files_properties(render/units/version.cpp PROPERTIES COMPILE_DEFINITIONS WAYFOLIO_VERSION="${PROJECT_VERSION}")

# Headers name each other by room ("units/quantity.hpp"); users write <wayfolio/units/quantity.hpp>.
target_include_directories(wayfolio INTERFACE
  $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/render>
  $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
  $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/wayfolio>)
target_compile_features(wayfolio INTERFACE cxx_std_20)
# Installed is the umbrella header with what it includes, and the checker's.
function(install_headers)
  set(waiting ${ARGN})
  set(found "")
  while(waiting)
    list(POP_FRONT waiting header)
    if(header IN_LIST found OR NOT EXISTS ${PROJECT_SOURCE_DIR}/render/${header})
      continue()
    endif()
    list(APPEND found ${header})
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS render/${header})
    cmake_path(GET header PARENT_PATH folder)
    install(FILES render/${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/wayfolio/${folder} COMPONENT development)
    file(STRINGS render/${header} lines REGEX "^#include \"")
    foreach(line IN LISTS lines)
      string(REGEX REPLACE "^#include \"([^\"]+)\".*" "\\1" included ${line})
      list(APPEND waiting ${included})
    endforeach()
  endwhile()
endfunction()
install_headers(wayfolio.hpp conformance/conformance.hpp)
install(TARGETS wayfolio EXPORT wayfolio DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)

set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/wayfolio)
install(EXPORT wayfolio NAMESPACE wayfolio:: FILE wayfolio-targets.cmake DESTINATION ${package_folder}
  COMPONENT development)
configure_package_config_file(render/install/wayfolio-config.cmake.in ${PROJECT_BINARY_DIR}/wayfolio-config.cmake
  INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/wayfolio-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/wayfolio-config.cmake ${PROJECT_BINARY_DIR}/wayfolio-config-version.cmake
  DESTINATION ${package_folder} COMPONENT development)

list(JOIN drawing_modules " " pc_requires)
string(APPEND pc_requires " ${qpdf_modules} ${sqlite_modules} ${digest_modules} ${expat_modules} fmt nlohmann_json")
file(RELATIVE_PATH pc_up /prefix/${CMAKE_INSTALL_LIBDIR}/pkgconfig /prefix)
configure_file(render/install/wayfolio.pc.in ${PROJECT_BINARY_DIR}/wayfolio.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/wayfolio.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)

install(DIRECTORY layouts/ DESTINATION ${CMAKE_INSTALL_DATADIR}/wayfolio/layouts FILES_MATCHING PATTERN "*.json")
# Under the names that `wayfolio schema` has for them, for editors.
set(schema_folder ${CMAKE_INSTALL_DATADIR}/wayfolio/schemas)
install(FILES render/document/result-document.schema.json DESTINATION ${schema_folder} RENAME result.schema.json)
install(FILES render/document/facts.schema.json render/evaluate/evaluation.schema.json render/evaluate/findings.schema.json
              render/compare/comparison.schema.json render/catalogue/catalogue.schema.json render/catalogue/history.schema.json
              render/archive/verification.schema.json render/conformance/conformance.schema.json render/gather/mapping.schema.json layouts/layout.schema.json
        DESTINATION ${schema_folder})
install(FILES render/install/wayfolio.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES render/install/wayfolio-document.5 render/install/wayfolio-layout.5 render/install/wayfolio-mapping.5
              render/install/wayfolio-record.5 render/install/wayfolio-certificate.5 DESTINATION ${CMAKE_INSTALL_MANDIR}/man5)
# systemd reads units of lib/systemd/system below /usr and below /usr/local.
configure_file(render/install/wayfolio.service.in ${PROJECT_BINARY_DIR}/wayfolio.service @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/wayfolio.service render/install/wayfolio.socket DESTINATION lib/systemd/system COMPONENT service)
install(DIRECTORY render/install/cluster render/install/proxies DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/wayfolio)
install(FILES render/install/wayfolio-accuracy.7 render/install/wayfolio-batch.7 render/install/wayfolio-service.7 DESTINATION ${CMAKE_INSTALL_MANDIR}/man7)
install(FILES render/install/wayfolio.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME wayfolio)
install(TARGETS wayfolio_program DESTINATION ${CMAKE_INSTALL_BINDIR})
