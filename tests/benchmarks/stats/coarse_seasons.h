#pragma once

/// Seasons of whole-frame counts whose truth is known: how often what is said of their means holds,
/// by counting habit, scatter and number of shots, beside what Student's t would say of the same
/// counts. Prints a table; `seasons` simulated for each line.
void printCoarseSeasons(int seasons, unsigned seed);
