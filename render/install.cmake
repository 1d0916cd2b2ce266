set_source_files_properties(render/units/version.cpp PROPERTIES COMPILE_DEFINITIONS WAYFOLIO_VERSION="${PROJECT_VERSION}")
