#!/usr/bin/env bash
# Makes the tables of this folder anew. Needs iconv (glibc).
set -euo pipefail
cd "$(dirname "$0")"

shots() {  # $1: separator, $2: line end
    printf "Racket$1Player$1Shot$1Frames$2"
    printf "Gut 24 kg$1A$1%d$1%d$2" 1 5 2 5 3 6
    printf "Gut 24 kg$1Zoë$1%d$1%d$2" 1 4 2 5 3 5
    printf "Poly blé$1A$1%d$1%d$2" 1 6 2 6 3 7
    printf "Poly blé$1Zoë$1%d$1%d$2" 1 5 2 6 3 6
}
cells() {  # the header's columns of counts, then the separator
    printf "Racket$4Player$4$1$4$2$4$3\r\n"
    printf "Gut 24 kg$4%s$4%d$4%d$4%d\r\n" A 5 5 6 Zoë 4 5 5
    printf "Poly blé$4%s$4%d$4%d$4%d\r\n" A 6 6 7 Zoë 5 6 6
}
blocks() {
    printf "$1\r\n"
    printf 'Gut 24 kg\t5\t5\t6\t4\t5\t5\r\nPoly blé\t6\t6\t7\t5\t6\t6\r\n'
}
to() { iconv -f UTF-8 -t "$1"; }

shots , '\n' > shots_utf8.csv
{ printf '\xEF\xBB\xBF'; shots ';' '\r\n'; } > shots_utf8_mark_semicolon.csv
shots ';' '\r\n' | to WINDOWS-1252 > shots_windows1252_semicolon.csv
{ printf '\xFF\xFE'; cells 'Shot 1' 'Shot 2' 'Shot 3' '\t' | to UTF-16LE; } > cells_utf16le_mark_tab.txt
cells 1 2 3 ';' | to UTF-16LE > cells_utf16le_semicolon.csv
cells '' '' '' ';' | to WINDOWS-1252 > cells_unnamed_windows1252.csv
{ printf '\xFE\xFF'; blocks 'Racket\tA\t\t\tZoë\t\t\r\n\t1\t2\t3\t1\t2\t3' | to UTF-16BE; } > blocks_two_headers_utf16be_mark.txt
blocks 'Racket\tA 1\tA 2\tA 3\tZoë 1\tZoë 2\tZoë 3' | to UTF-16BE > blocks_numbered_utf16be.txt
blocks 'Racket\tA\t\t\tZoë\t\t' > blocks_unnamed_utf8.txt
blocks 'Racket\tA\tA\tA\tZoë\tZoë\tZoë' | to WINDOWS-1252 > blocks_repeated_windows1252.txt
{ printf 'Racket;Player;Turns;Frames per turn;Mass (g);Note\r\n'
  printf 'Gut 24 kg;A;5;4,8;95,5;first\r\nGut 24 kg;A;4;5,25;95,5;windy\r\nPoly blé;Zoë;10;4,1;97;\r\n'
} | to WINDOWS-1252 > decimal_comma_windows1252.csv
