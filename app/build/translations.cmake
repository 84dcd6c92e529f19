# Languages that ship. The source texts are English; brimful_en.ts holds only its plural forms.
#   brimful_translations(TARGET)   puts the compiled languages into a program, under :/translations
set(BRIMFUL_LANGUAGES en)
find_program(LUPDATE NAMES lupdate PATHS /usr/lib/qt6/bin REQUIRED NO_DEFAULT_PATH)
find_program(LRELEASE NAMES lrelease PATHS /usr/lib/qt6/bin REQUIRED NO_DEFAULT_PATH)

function(brimful_translations target)
  set(compiled "")
  foreach(language ${BRIMFUL_LANGUAGES})
    set(ts ${CMAKE_SOURCE_DIR}/translations/brimful_${language}.ts)
    set(qm ${CMAKE_CURRENT_BINARY_DIR}/brimful_${language}.qm)
    add_custom_command(OUTPUT ${qm} COMMAND ${LRELEASE} -silent ${ts} -qm ${qm} DEPENDS ${ts} COMMENT "language ${language}")
    list(APPEND compiled ${qm})
  endforeach()
  qt_add_resources(${target} ${target}_translations PREFIX "/translations" BASE ${CMAKE_CURRENT_BINARY_DIR} FILES ${compiled})
endfunction()
