# Writes the files under rules/ into one C++ source: data that travels inside the program.
#   cmake -D SOURCE=dir -D OUT=file -P embed.cmake
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE files RELATIVE ${SOURCE} ${SOURCE}/*.json)
list(SORT files)
set(text "// Made at build from rules/. Do not edit.\n#include \"core/rules/embedded.h\"\n\nnamespace brimful::rules {\n\nstd::span<const Embedded> embedded()\n{\n    static const Embedded kFiles[] = {\n")
foreach(file ${files})
  file(READ ${SOURCE}/${file} content)
  string(APPEND text "        {\"${file}\", R\"brimful(${content})brimful\"},\n")
endforeach()
string(APPEND text "        {\"\", \"\"},\n    };\n    return std::span(kFiles).first(std::size(kFiles) - 1);\n}\n\n} // namespace brimful::rules\n")
file(WRITE ${OUT} "${text}")
