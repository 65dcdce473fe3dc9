cmake_minimum_required(VERSION 3.25)
# Fails where findings or doubts make sentences: they give values, which core/words says.
# Run: cmake -D ROOT=<source tree> -P values_are_said_elsewhere.cmake
set(own "(^|[^A-Za-z_])(said|saidOf|saidText|counted|toSay)\\(")
file(GLOB_RECURSE paths RELATIVE "${ROOT}" "${ROOT}/core/findings/*.h" "${ROOT}/core/findings/*.cpp" "${ROOT}/core/doubts/*.h"
     "${ROOT}/core/doubts/*.cpp")
# What these refuse to a person is an Error, which carries its message.
list(REMOVE_ITEM paths core/findings/bands.cpp core/findings/settings.cpp core/doubts/decisions.cpp core/doubts/second_sample.cpp)
set(wrong "sentences among values; give the facts and let core/words say them")
set(right "of findings and doubts leave the words to core/words")
include(${CMAKE_CURRENT_LIST_DIR}/report_lines.cmake)
