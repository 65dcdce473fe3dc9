cmake_minimum_required(VERSION 3.25)
# Fails where a source of the window states a colour, a size of text or a style sheet of its own: these stand in ui/style alone.
# Run: cmake -D ROOT=<source tree> -P look_in_one_place.cmake
set(own "setStyleSheet|setPointSize|setPixelSize|setFontPointSize|setFontFamily|qRgba?\\("
        "|QColor(::fromRgbF?\\(| *[({] *(\"|[0-9])| [A-Za-z]+[({] *(\"|[0-9]))|QColorConstants"
        "|\"#[0-9a-fA-F][0-9a-fA-F][0-9a-fA-F]+\"|Qt::(black|white|red|green|blue|cyan|magenta|yellow|gray|dark[A-Z]|lightGray)")
string(JOIN "" own ${own})
file(GLOB_RECURSE paths RELATIVE "${ROOT}" "${ROOT}/ui/*.h" "${ROOT}/ui/*.cpp" "${ROOT}/app/*.h" "${ROOT}/app/*.cpp")
list(FILTER paths EXCLUDE REGEX "^ui/style/")
# Pixels of footage are mixed in the one, and in the other what lies outside of a picture is black.
list(REMOVE_ITEM paths ui/bridge/cut_out.cpp ui/reading/grid/turn_sense.cpp)
set(wrong "looks outside ui/style; take a token of ui/style/tokens.h or a size of ui/style/text_font.h")
set(right "take their looks from ui/style")
include(${CMAKE_CURRENT_LIST_DIR}/report_lines.cmake)
