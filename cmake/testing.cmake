# In the release preset tests are run once for every time that they are compiled; elsewhere the build type decides.
set(TURNMARK_QUICKLY_COMPILED $<$<CONFIG:Release>:-O0>)
set(TURNMARK_TEST_HEADERS ${TURNMARK_COMMON_HEADERS} <gtest/gtest.h> <nlohmann/json.hpp>)

# add_module_test(core/spin marks_reading_test.cpp … [LINK …] [NEEDS demo] [PARTS n] [COST seconds] [NUMBERS]): the test
# program core_spin_tests. CTest runs it in n processes (one unless said), core.spin.1 to core.spin.n, each with its share of
# the cases, in the working folder tests/data. What fails is printed with the name of its case; every case with its time stands
# in tests/core.spin.1.xml of the build folder.
# NEEDS demo: tests::DemoCopy works. COST: about how long it takes, so that the long ones begin first.
# NUMBERS: has long loops of its own and is optimised.
function(add_module_test module)
    cmake_parse_arguments(ARG "NUMBERS" "PARTS;COST" "LINK;NEEDS" ${ARGN})
    string(REPLACE "/" "_" target "${module}_tests")
    string(REPLACE "/" "." name "${module}")
    add_executable(${target} ${ARG_UNPARSED_ARGUMENTS})
    target_link_libraries(${target} PRIVATE project_options project_warnings tests_support ${ARG_LINK})
    if(ARG_NUMBERS)
        target_precompile_headers(${target} PRIVATE ${TURNMARK_TEST_HEADERS})
    else()
        target_compile_options(${target} PRIVATE ${TURNMARK_QUICKLY_COMPILED})
        if(module MATCHES "^ui/")
            target_precompile_headers(${target} REUSE_FROM tests_qt_support)
        else()
            target_precompile_headers(${target} REUSE_FROM tests_support)
        endif()
    endif()
    if(NOT ARG_PARTS)
        set(ARG_PARTS 1)
    endif()
    foreach(part RANGE 1 ${ARG_PARTS})
        math(EXPR index "${part} - 1")
        add_test(NAME ${name}.${part} COMMAND ${target} WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}/tests/data")
        set_tests_properties(
            ${name}.${part}
            PROPERTIES TIMEOUT 1800 COST "${ARG_COST}" FIXTURES_REQUIRED "${ARG_NEEDS}"
                       ENVIRONMENT "QT_QPA_PLATFORM=offscreen;GTEST_BRIEF=1;GTEST_TOTAL_SHARDS=${ARG_PARTS};GTEST_SHARD_INDEX=${index};GTEST_OUTPUT=xml:${CMAKE_BINARY_DIR}/tests/${name}.${part}.xml")
    endforeach()
endfunction()
