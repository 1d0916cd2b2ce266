# udunits2 is the outside opinion on unit conversions.
pkg_check_modules(udunits REQUIRED IMPORTED_TARGET udunits)
target_link_libraries(units_tests PRIVATE PkgConfig::udunits)
