# One folder under core/ or app/ is one room: one target, its own headers, and only the rooms it names.
#
#   brimful_room(core/vessel SOURCES heads.cpp vessel.cpp ROOMS core/quantity LIBRARIES Boost::headers)
#
# A room's headers are seen through a folder of links that holds this room alone, so an include of a
# room that was not named does not build. The list of allowed edges is app/build/edges.txt; a test reads it.
#
# What nearly every room reads is parsed once (core_headers). No source may lean on it: the linter reads each without.
file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/core_headers.cpp CONTENT "// Carries the headers that the rooms share.\n")
add_library(core_headers OBJECT ${CMAKE_BINARY_DIR}/core_headers.cpp)
target_link_libraries(core_headers PRIVATE Boost::headers brimful_flags)
target_precompile_headers(core_headers PRIVATE
  <algorithm> <functional> <map> <memory> <optional> <string> <vector> ${CMAKE_SOURCE_DIR}/core/quantity/quantity.h)

function(brimful_room path)
  cmake_parse_arguments(arg "" "" "SOURCES;ROOMS;LIBRARIES" ${ARGN})
  string(REPLACE "/" "_" target "brimful_${path}")
  set(walls ${CMAKE_BINARY_DIR}/walls/${path})
  get_filename_component(parent ${walls}/${path} DIRECTORY)
  file(MAKE_DIRECTORY ${parent})
  file(CREATE_LINK ${CMAKE_SOURCE_DIR}/${path} ${walls}/${path} SYMBOLIC)
  string(REPLACE "/" "_" rooms "${arg_ROOMS}")
  list(TRANSFORM rooms PREPEND brimful_)
  if(arg_SOURCES)
    add_library(${target} STATIC ${arg_SOURCES})
    target_include_directories(${target} PUBLIC ${walls})
    target_link_libraries(${target} PUBLIC ${rooms} ${arg_LIBRARIES} PRIVATE brimful_flags)
    if(path MATCHES "^core/")
      target_precompile_headers(${target} REUSE_FROM core_headers)
    endif()
  else()
    add_library(${target} INTERFACE)
    target_include_directories(${target} INTERFACE ${walls})
    target_link_libraries(${target} INTERFACE ${rooms} ${arg_LIBRARIES})
  endif()
endfunction()
