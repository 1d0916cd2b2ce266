# Debian packages by `cpack`: the program with what it needs to draw, the service that systemd starts, the library with its headers.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME wayfolio)
set(CPACK_PACKAGE_CONTACT "The engineers of wayfolio <wayfolio@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "calibration reports and figures of machine tool axes")
set(CPACK_PACKAGING_INSTALL_PREFIX ${CMAKE_INSTALL_PREFIX})  # the unit names the program by its whole path
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program service development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)  # what is linked is named by the packages of the machine that builds
set(CPACK_DEBIAN_PACKAGE_SECTION science)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME wayfolio)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "The command, its fonts, layouts, schemas and manual.")
# Loaded when a picture or a packed record needs them, so that the linker does not name them.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "librsvg2-2, libarchive13")

set(CPACK_DEBIAN_SERVICE_PACKAGE_NAME wayfolio-service)
set(CPACK_COMPONENT_SERVICE_DESCRIPTION "Socket and service for systemd; nothing is started until its socket is enabled.")
set(CPACK_DEBIAN_SERVICE_PACKAGE_DEPENDS "wayfolio (= ${PROJECT_VERSION})")
set(CPACK_DEBIAN_SERVICE_PACKAGE_ARCHITECTURE all)

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libwayfolio-dev)
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "The library, its headers, CMake package and pkg-config file; it draws with the data of the program.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "wayfolio (= ${PROJECT_VERSION}), libcairo2-dev, libpango1.0-dev, libfontconfig-dev, libfreetype-dev, libexpat1-dev, libfmt-dev, nlohmann-json3-dev, libqpdf-dev, libdeflate-dev, libsqlite3-dev, nettle-dev, libboost1.81-dev")
include(CPack)
