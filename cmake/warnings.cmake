# Warnings are errors. GCC's C++ -Wconversion leaves signs out, hence -Wsign-conversion beside it.
add_library(project_warnings INTERFACE)
target_compile_options(
    project_warnings
    INTERFACE -Werror
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
              -Wnull-dereference
              -Wformat=2
              -Wimplicit-fallthrough
              $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond>
              $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-branches>
              $<$<CXX_COMPILER_ID:GNU>:-Wlogical-op>
              $<$<CXX_COMPILER_ID:GNU>:-Wsuggest-override>
              # GCC 12 takes std::string's operator+ for a write out of bounds (GCC bug 105651).
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-array-bounds>
              $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>)
