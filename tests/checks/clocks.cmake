cmake_minimum_required(VERSION 3.25)
# Nothing reads a clock but core/yard/clocks.cpp; time is passed in. Screens may run a timer, never judge by one.
include(${CMAKE_CURRENT_LIST_DIR}/lines.cmake)
file(GLOB_RECURSE files ${SOURCE}/core/*.cpp ${SOURCE}/core/*.h ${SOURCE}/app/text/*.cpp ${SOURCE}/app/print/*.cpp)
list(FILTER files EXCLUDE REGEX "/core/yard/clocks.cpp$")
brimful_no_line(found_lines "system_clock|steady_clock|clock_gettime|currentDateTime|currentMSecsSinceEpoch|[^_a-zA-Z]time\\(nullptr|gettimeofday" ${files})
brimful_none(found_lines "reads a clock")
