# Reads each source of core/ and app/ with the linter, without the headers that the build has parsed beforehand:
# a source that leans on them is found here.
file(READ ${BINARY}/compile_commands.json commands)
string(REGEX REPLACE "-Winvalid-pch -include [^ ]+ " "" commands "${commands}")
file(WRITE ${BINARY}/tidy/compile_commands.json "${commands}")
execute_process(COMMAND ${RUN_CLANG_TIDY} -quiet -p ${BINARY}/tidy -j 2 "${SOURCE}/(core|app)/.*\\.cpp$" COMMAND_ERROR_IS_FATAL ANY)
