cmake_minimum_required(VERSION 3.25)
# Words that this program does not say to people: it tells what was proven, not that something is safe.
include(${CMAKE_CURRENT_LIST_DIR}/lines.cmake)
file(GLOB_RECURSE strings ${SOURCE}/rules/*/strings.en.json)
file(GLOB_RECURSE sources ${SOURCE}/app/text/*.cpp ${SOURCE}/app/print/*.cpp ${SOURCE}/app/cli/*.cpp ${SOURCE}/app/tablet/*.cpp ${SOURCE}/qml/*.qml)
brimful_no_line(found_lines ":[ ]*\".*([^a-zA-Z]|^)([Ss]afe|[Ss]afely|OK|[Aa]pproved)([^a-zA-Z]|$)" ${strings})
brimful_no_line(found_lines "(tr|qsTr|translate)\\(.*\"[^\"]*([^a-zA-Z\"]|\")([Ss]afe|[Ss]afely|OK|[Aa]pproved)([^a-zA-Z]|\").*" ${sources})
brimful_none(found_lines "words that are not said")
