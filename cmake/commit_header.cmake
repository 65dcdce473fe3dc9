# Writes a header with the commit of the source tree. cmake -D ROOT=<source tree> -D TO=<header> -P commit_header.cmake
# A package of the sources has no repository: TURNMARK_COMMIT in the environment says it then.
set(commit "$ENV{TURNMARK_COMMIT}")
if(commit STREQUAL "")
    execute_process(COMMAND git -C "${ROOT}" rev-parse --short=12 HEAD OUTPUT_VARIABLE commit
                    OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
    if(failed)
        set(commit "not known")
    else()
        execute_process(COMMAND git -C "${ROOT}" diff-index --quiet HEAD -- RESULT_VARIABLE changed ERROR_QUIET)
        if(changed)
            string(APPEND commit " with changes")
        endif()
    endif()
endif()
file(CONFIGURE OUTPUT "${TO}" @ONLY CONTENT [[
#pragma once

inline constexpr const char* kCommit = "@commit@";
]])
