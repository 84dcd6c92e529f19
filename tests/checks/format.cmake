cmake_minimum_required(VERSION 3.25)
# clang-format agrees with every source file.
file(GLOB_RECURSE files ${SOURCE}/core/*.h ${SOURCE}/core/*.cpp ${SOURCE}/app/*.h ${SOURCE}/app/*.cpp ${SOURCE}/tests/*.h ${SOURCE}/tests/*.cpp)
execute_process(COMMAND ${CLANG_FORMAT} --dry-run -Werror ${files} WORKING_DIRECTORY ${SOURCE} RESULT_VARIABLE result ERROR_VARIABLE text)
if(NOT result EQUAL 0)
  message(FATAL_ERROR "${text}")
endif()
