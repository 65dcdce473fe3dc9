# Warnings are errors. GCC's C++ -Wconversion leaves signs out, hence -Wsign-conversion beside it.
add_library(project_warnings INTERFACE)
target_compile_options(
    project_warnings
    INTERFACE $<$<NOT:$<BOOL:${TURNMARK_FUZZERS}>>:-Werror> # fuzzers are built by clang, which warns of other things
              -Wall
              -Wextra
              -Wpedantic
              -Wshadow
              -Wconversion
              -Wsign-conversion
              -Wdouble-promotion
              -Wold-style-cast
              -Wnon-virtual-dtor
              -Woverloaded-virtual
              -Wformat=2
              -Wimplicit-fallthrough
              $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond>
              $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-branches>
              $<$<CXX_COMPILER_ID:GNU>:-Wlogical-op>
              $<$<CXX_COMPILER_ID:GNU>:-Wsuggest-override>
              # GCC 12 takes the making of strings for accesses out of bounds (GCC bug 105651) and growing vectors for nulls.
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-array-bounds>
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-stringop-overflow>
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-stringop-overread>
              $<$<NOT:$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>>:-Wnull-dereference>)
