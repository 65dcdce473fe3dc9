# What nearly every file includes is compiled once for every way of compiling: `numbers` with -O3 for modules whose loops
# are waited for, `usual` with -O1 for the rest of core and the command line, `screens` with Qt for ui. GCC takes the level of
# optimisation from the precompiled header, whatever the file that uses it asks for: one level, one header.
set(TURNMARK_COMMON_HEADERS
    <algorithm>
    <array>
    <cmath>
    <filesystem>
    <fstream>
    <functional>
    <map>
    <memory>
    <optional>
    <set>
    <span>
    <stop_token>
    <string>
    <vector>
    <boost/outcome/basic_result.hpp>
    <boost/outcome/policy/throw_bad_result_access.hpp>
    <boost/outcome/try.hpp>
    <fmt/format.h>)
# For the release preset alone: in the others the build type decides.
set(TURNMARK_MUCH_OPTIMISATION $<$<CONFIG:Release>:-O3>$<$<CONFIG:RelWithDebInfo>:-O1>)
set(TURNMARK_LITTLE_OPTIMISATION $<$<CONFIG:Release>:-O1>)

function(_turnmark_precompiled name)
    cmake_parse_arguments(ARG "" "" "LINK;OPTIONS;HEADERS" ${ARGN})
    set(empty "${CMAKE_BINARY_DIR}/precompiled/${name}.cpp")
    file(CONFIGURE OUTPUT "${empty}" CONTENT "")
    add_library(precompiled_${name} OBJECT "${empty}")
    target_link_libraries(precompiled_${name} PRIVATE project_options project_warnings ${ARG_LINK})
    target_compile_options(precompiled_${name} PRIVATE ${ARG_OPTIONS})
    target_precompile_headers(precompiled_${name} PRIVATE ${TURNMARK_COMMON_HEADERS} ${ARG_HEADERS})
endfunction()
_turnmark_precompiled(numbers LINK fmt::fmt OPTIONS ${TURNMARK_MUCH_OPTIMISATION})
_turnmark_precompiled(usual LINK fmt::fmt nlohmann_json::nlohmann_json OPTIONS ${TURNMARK_LITTLE_OPTIMISATION}
                      HEADERS <nlohmann/json.hpp>)
_turnmark_precompiled(screens LINK Qt6::Widgets fmt::fmt OPTIONS ${TURNMARK_LITTLE_OPTIMISATION} HEADERS <QtWidgets>)
target_compile_definitions(precompiled_screens PRIVATE QT_NO_CAST_FROM_ASCII QT_NO_KEYWORDS)

# add_core_module(<name> SOURCES … [PUBLIC …] [PRIVATE …] [NUMBERS]): the library core_<name> with the alias core::<name>.
# add_ui_module(<name> …): the same for ui_<name>, with Qt's code generators on.
function(_turnmark_module prefix name)
    cmake_parse_arguments(ARG "" "" "SOURCES;PUBLIC;PRIVATE" ${ARGN})
    add_library(${prefix}_${name} STATIC ${ARG_SOURCES})
    add_library(${prefix}::${name} ALIAS ${prefix}_${name})
    target_link_libraries(
        ${prefix}_${name}
        PUBLIC project_options ${ARG_PUBLIC}
        PRIVATE project_warnings fmt::fmt ${ARG_PRIVATE})
endfunction()

function(add_core_module name)
    cmake_parse_arguments(ARG "NUMBERS" "" "" ${ARGN})
    _turnmark_module(core ${name} ${ARG_UNPARSED_ARGUMENTS})
    if(ARG_NUMBERS)
        target_compile_options(core_${name} PRIVATE ${TURNMARK_MUCH_OPTIMISATION})
        target_precompile_headers(core_${name} REUSE_FROM precompiled_numbers)
    else()
        target_compile_options(core_${name} PRIVATE ${TURNMARK_LITTLE_OPTIMISATION})
        target_precompile_headers(core_${name} REUSE_FROM precompiled_usual)
    endif()
endfunction()

function(add_ui_module name)
    cmake_parse_arguments(ARG "WITH_QT_KEYWORDS" "" "" ${ARGN})
    set(CMAKE_AUTOMOC ON)
    set(CMAKE_AUTORCC ON)
    _turnmark_module(ui ${name} ${ARG_UNPARSED_ARGUMENTS})
    target_link_libraries(ui_${name} PRIVATE Qt6::Widgets)
    target_compile_options(ui_${name} PRIVATE ${TURNMARK_LITTLE_OPTIMISATION})
    target_compile_definitions(ui_${name} PRIVATE QT_NO_CAST_FROM_ASCII)
    if(NOT ARG_WITH_QT_KEYWORDS)
        target_compile_definitions(ui_${name} PRIVATE QT_NO_KEYWORDS)
        target_precompile_headers(ui_${name} REUSE_FROM precompiled_screens)
    endif()
endfunction()
