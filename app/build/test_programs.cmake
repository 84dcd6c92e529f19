# One test program a folder; each suite in it registers itself (tests/support/suite.h).
#
#   brimful_test_program(core/vessel SOURCES heads_test.cpp ROOMS core/vessel LIBRARIES ... GUI)
#
#   APART "one=Suite" "two=Suite function:row" "others=all-but:Suite": a long program as several tests, so that they run side by side.
#
# Long headers are parsed once: of all programs without a window, of each with one, or of the one that HEADERS names.
function(brimful_test_program path)
  cmake_parse_arguments(arg "GUI" "HEADERS" "SOURCES;ROOMS;LIBRARIES;APART" ${ARGN})
  string(REPLACE "/" "_" target "test_${path}")
  string(REPLACE "/" "_" rooms "${arg_ROOMS}")
  list(TRANSFORM rooms PREPEND brimful_)
  add_executable(${target} ${arg_SOURCES} ${CMAKE_SOURCE_DIR}/tests/support/main.cpp)
  set_target_properties(${target} PROPERTIES AUTOMOC ON RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/tests)
  target_include_directories(${target} PRIVATE ${CMAKE_SOURCE_DIR})
  target_compile_definitions(${target} PRIVATE
    BRIMFUL_SOURCE_DIR="${CMAKE_SOURCE_DIR}" BRIMFUL_BINARY_DIR="${CMAKE_BINARY_DIR}"
    $<$<BOOL:${arg_GUI}>:BRIMFUL_TEST_GUI>)
  target_link_libraries(${target} PRIVATE ${rooms} ${arg_LIBRARIES} Qt6::Test
    $<$<BOOL:${arg_GUI}>:Qt6::Gui> brimful_flags)
  # moc need not know this compiler: with its macros it follows the standard library and stumbles in <concepts>.
  set_target_properties(${target} PROPERTIES AUTOMOC_COMPILER_PREDEFINES OFF)
  if(arg_HEADERS)
    string(REPLACE "/" "_" headers "test_${arg_HEADERS}")
    target_precompile_headers(${target} REUSE_FROM ${headers})
  elseif(arg_GUI) # Qt Gui's own definitions make the shared copy useless
    target_precompile_headers(${target} PRIVATE <QTest> <QImage> <QPainter> <functional> <memory> <string> <vector> ${CMAKE_SOURCE_DIR}/core/report/view.h)
  else()
    target_precompile_headers(${target} REUSE_FROM test_headers)
  endif()
  if(arg_APART)
    foreach(one IN LISTS arg_APART)
      string(REGEX MATCH "^([^=]+)=(.+)$" _ "${one}")
      separate_arguments(arguments UNIX_COMMAND "${CMAKE_MATCH_2}")
      add_test(NAME ${path}/${CMAKE_MATCH_1} COMMAND ${target} ${arguments})
      list(APPEND tests ${path}/${CMAKE_MATCH_1})
    endforeach()
  else()
    add_test(NAME ${path} COMMAND ${target})
    set(tests ${path})
  endif()
  set(seconds 600)
  if(BRIMFUL_SANITIZE)
    set(seconds 7200)
  endif()
  set_tests_properties(${tests} PROPERTIES TIMEOUT ${seconds}
    ENVIRONMENT "QT_QPA_PLATFORM=offscreen;QT_QUICK_BACKEND=software;QML_DISABLE_DISK_CACHE=1;LC_ALL=C.UTF-8")
endfunction()
