# Every library the project uses, found once. Nothing is downloaded.
option(BRIMFUL_WERROR "warnings are errors" OFF)
option(BRIMFUL_TESTS "build the tests" ON)
option(BRIMFUL_TABLET "build the tablet program" ON)
option(BRIMFUL_FUZZ "build the fuzz targets" OFF)
set(BRIMFUL_SANITIZE "" CACHE STRING "sanitizers, as for -fsanitize=")

find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
find_package(Boost 1.74 REQUIRED)
set_target_properties(Boost::headers PROPERTIES INTERFACE_COMPILE_DEFINITIONS "") # one for another linker, and it would divide the shared headers
find_package(SQLiteCpp REQUIRED)
find_package(date REQUIRED)
find_package(ZXing REQUIRED)
pkg_check_modules(sodium REQUIRED IMPORTED_TARGET libsodium)
pkg_check_modules(sqlite REQUIRED IMPORTED_TARGET sqlite3)
pkg_check_modules(crypto REQUIRED IMPORTED_TARGET libcrypto)
pkg_check_modules(qrcodegen REQUIRED IMPORTED_TARGET qrcodegencpp)
find_library(CADICAL_LIBRARY cadical REQUIRED)

find_package(Qt6 6.4 REQUIRED COMPONENTS Core Gui LinguistTools)
if(BRIMFUL_TABLET)
  find_package(Qt6 6.4 REQUIRED COMPONENTS Quick QuickControls2 Svg PrintSupport Multimedia)
endif()
if(BRIMFUL_TESTS)
  find_package(Qt6 6.4 REQUIRED COMPONENTS Test)
  if(BRIMFUL_TABLET)
    find_package(Qt6 6.4 REQUIRED COMPONENTS QuickTest)
  endif()
endif()

add_library(brimful_flags INTERFACE)
target_compile_options(brimful_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wold-style-cast -Wshadow
  # g++ 12 warns of std::string's own memcpy (GCC bug 105651), in more words once its header was parsed beforehand.
  "$<$<CXX_COMPILER_ID:GNU>:-Wno-restrict;-Wno-array-bounds;-Wno-stringop-overflow;-Wno-stringop-overread>"
  $<$<BOOL:${BRIMFUL_WERROR}>:-Werror>)
if(BRIMFUL_SANITIZE)
  add_compile_options(-fsanitize=${BRIMFUL_SANITIZE} -fno-omit-frame-pointer)
  if(NOT BRIMFUL_FUZZ)
    # GCC warns of what may be uninitialised in instrumented code where nothing is.
    add_compile_options(-fno-sanitize-recover=all -Wno-maybe-uninitialized)
    add_link_options(-fsanitize=${BRIMFUL_SANITIZE})
  endif()
endif()
