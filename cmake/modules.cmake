# What nearly every file includes is compiled once. core/base and tests/support own the precompiled headers that the other
# modules of core and their tests take over; ui/reading has its own.
set(TURNMARK_COMMON_HEADERS
    <algorithm>
    <array>
    <cmath>
    <filesystem>
    <functional>
    <map>
    <memory>
    <optional>
    <span>
    <string>
    <vector>
    <boost/outcome/basic_result.hpp>
    <boost/outcome/try.hpp>)

# add_core_module(<name> SOURCES … [PUBLIC …] [PRIVATE …]): the library core_<name> with the alias core::<name>.
# add_ui_module(<name> …): the same for ui_<name>, with Qt's code generators on.
function(_turnmark_module prefix name)
    cmake_parse_arguments(ARG "" "" "SOURCES;PUBLIC;PRIVATE" ${ARGN})
    add_library(${prefix}_${name} STATIC ${ARG_SOURCES})
    add_library(${prefix}::${name} ALIAS ${prefix}_${name})
    target_link_libraries(
        ${prefix}_${name}
        PUBLIC project_options ${ARG_PUBLIC}
        PRIVATE project_warnings ${ARG_PRIVATE})
endfunction()

function(add_core_module name)
    _turnmark_module(core ${name} ${ARGN})
    if(name STREQUAL base)
        target_precompile_headers(core_base PRIVATE ${TURNMARK_COMMON_HEADERS})
    else()
        target_precompile_headers(core_${name} REUSE_FROM core_base)
    endif()
endfunction()

function(add_ui_module name)
    set(CMAKE_AUTOMOC ON)
    set(CMAKE_AUTORCC ON)
    _turnmark_module(ui ${name} ${ARGN})
    target_compile_definitions(ui_${name} PRIVATE QT_NO_CAST_FROM_ASCII QT_NO_KEYWORDS)
endfunction()

# add_module_test(core/spin marks_reading_test.cpp … LINK … [NEEDS fixture]): one test program core_spin_tests; its cases
# appear in CTest as core.spin.<Suite>.<Case>. Working folder: tests/data. What a test needs it has to itself: a project is open
# in one program at a time.
function(add_module_test module)
    cmake_parse_arguments(ARG "" "" "LINK;NEEDS" ${ARGN})
    string(REPLACE "/" "_" target "${module}_tests")
    string(REPLACE "/" "." prefix "${module}.")
    add_executable(${target} ${ARG_UNPARSED_ARGUMENTS})
    target_link_libraries(${target} PRIVATE project_options project_warnings tests_support GTest::gmock GTest::gtest
                                            ${ARG_LINK})
    if(NOT module MATCHES "^ui/") # Qt's test library defines a macro that differs from folder to folder
        target_precompile_headers(${target} REUSE_FROM tests_support)
    endif()
    gtest_discover_tests(
        ${target}
        TEST_PREFIX ${prefix}
        WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}/tests/data"
        DISCOVERY_TIMEOUT 60
        PROPERTIES TIMEOUT 600 ENVIRONMENT "QT_QPA_PLATFORM=offscreen" FIXTURES_REQUIRED "${ARG_NEEDS}" RESOURCE_LOCK "${ARG_NEEDS}")
endfunction()
