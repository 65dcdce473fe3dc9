# What every target is built with, and the switches a person may turn.
option(TURNMARK_TESTS "Build the tests" ON)
option(TURNMARK_BENCHMARKS "Offer the targets benchmarks and run-benchmarks (not part of all)" ON)
option(TURNMARK_FUZZERS "Offer the target fuzzers (clang's libFuzzer, not part of all)" OFF)
set(TURNMARK_SANITIZER "" CACHE STRING "Value for -fsanitize=, for example address,undefined or thread")

set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
set(CMAKE_RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/bin")

find_program(CCACHE_PROGRAM ccache)
if(CCACHE_PROGRAM AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
    # Without these two, and the time of a header inside it, the cache leaves out every file that uses a precompiled header.
    set(CMAKE_CXX_COMPILER_LAUNCHER "${CMAKE_COMMAND}" -E env CCACHE_SLOPPINESS=pch_defines,time_macros
                                    "${CCACHE_PROGRAM}")
endif()

add_library(project_options INTERFACE)
target_compile_features(project_options INTERFACE cxx_std_20)
target_include_directories(project_options INTERFACE "${PROJECT_SOURCE_DIR}")
# No path of the machine that built them is in the programs: two builds of one commit are equal.
target_compile_options(project_options INTERFACE $<$<NOT:$<CONFIG:Debug>>:-ffile-prefix-map=${PROJECT_SOURCE_DIR}/=>)
if(TURNMARK_SANITIZER)
    target_compile_options(project_options INTERFACE -fsanitize=${TURNMARK_SANITIZER} -fno-omit-frame-pointer)
    target_link_options(project_options INTERFACE -fsanitize=${TURNMARK_SANITIZER})
endif()
if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    target_compile_options(project_options INTERFACE "SHELL:-Xclang -fno-pch-timestamp")
    target_link_options(project_options INTERFACE -fuse-ld=lld)
endif()
set(CMAKE_CXX_EXTENSIONS OFF)
if(TURNMARK_FUZZERS)
    if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
        message(FATAL_ERROR "TURNMARK_FUZZERS needs clang++")
    endif()
    target_compile_options(project_options INTERFACE -fsanitize=fuzzer-no-link)
endif()
