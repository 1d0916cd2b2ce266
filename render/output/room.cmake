target_include_directories(room_output SYSTEM PRIVATE ${svg_INCLUDE_DIRS})
