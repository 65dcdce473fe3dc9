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
              $<$<CXX_COMPILER_ID:GNU>:-Wsuggest-override>)
