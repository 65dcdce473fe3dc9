# Warnings are errors; by clang, with which the presets compile: it takes half of GCC's time.
add_library(project_warnings INTERFACE)
target_compile_options(
    project_warnings
    INTERFACE $<$<CXX_COMPILER_ID:Clang>:-Werror>
              -Wall
              -Wextra
              -Wpedantic
              -Wshadow
              -Wconversion
              -Wsign-conversion
              -Wold-style-cast
              -Wnon-virtual-dtor
              -Woverloaded-virtual
              -Wformat=2
              -Wimplicit-fallthrough
              -Wsuggest-override
              -Wnull-dereference)
