#include "a(s)"
// shot(s) in a comment
const char* first = "Two shots, counted by a function.";
const char* second = "No shot(s) here.";
const char* third = "Found {} " "shots today.";
const char* fourth = "Set noticeable_step_rpm to 300.";
const char* fifth = "It comes home late.";
const char* last = "{:.1f} frames per second; see a_file.csv";
