cmake_minimum_required(VERSION 3.25)
# No component inside another's file: Qt 6.4 keeps such a file compiled only until the program ends and reads it anew at each start.
include(${CMAKE_CURRENT_LIST_DIR}/lines.cmake)
file(GLOB_RECURSE files ${SOURCE}/qml/*.qml)
brimful_no_line(found_lines "^ *component [A-Z]" ${files})
brimful_none(found_lines "a file of its own for each component")
