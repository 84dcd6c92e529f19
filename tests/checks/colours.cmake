cmake_minimum_required(VERSION 3.25)
# Colours stand in one place on each side: qml/theme and app/print/palette.cpp.
include(${CMAKE_CURRENT_LIST_DIR}/lines.cmake)
file(GLOB_RECURSE files ${SOURCE}/qml/*.qml ${SOURCE}/app/print/*.cpp ${SOURCE}/app/print/*.h ${SOURCE}/app/tablet/*.cpp ${SOURCE}/app/tablet/*.h)
list(FILTER files EXCLUDE REGEX "/qml/theme/|/app/print/palette.cpp$")
brimful_no_line(found_lines "\"#[0-9A-Fa-f]+\"|Qt::(red|green|blue|yellow|gray|darkGray|lightGray)|Qt\\.rgba" ${files})
brimful_none(found_lines "colours outside the theme")
