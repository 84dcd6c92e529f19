cmake_minimum_required(VERSION 3.25)
# The top level is fixed; a stranger finds every thing in its room.
file(GLOB names RELATIVE ${SOURCE} ${SOURCE}/*)
set(allowed CMakeLists.txt CMakePresets.json README.md DEVELOPERS.md LICENSE app qml core rules tests translations build)
foreach(name ${names})
  if(NOT name MATCHES "^[.]" AND NOT name IN_LIST allowed)
    message(FATAL_ERROR "top level: ${name} belongs inside one of the folders")
  endif()
endforeach()
