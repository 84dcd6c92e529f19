# brimful_no_line(INTO REGEX FILE...): appends to the list named INTO each line of the files that matches, with its file.
function(brimful_no_line into regex)
  set(found ${${into}})
  foreach(file ${ARGN})
    file(STRINGS ${file} lines REGEX "${regex}")
    foreach(line ${lines})
      list(APPEND found "${file}: ${line}")
    endforeach()
  endforeach()
  set(${into} "${found}" PARENT_SCOPE)
endfunction()

# Fails with what the list named OF holds, under a heading.
function(brimful_none of heading)
  if(NOT "${${of}}" STREQUAL "")
    list(JOIN ${of} "\n" text)
    message(FATAL_ERROR "${heading}:\n${text}")
  endif()
endfunction()
