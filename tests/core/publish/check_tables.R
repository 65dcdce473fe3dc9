# Reads a published folder's tables as a statistician would and computes the means of the cells anew.
folder <- commandArgs(trailingOnly = TRUE)[1]
read <- function(name) read.csv(file.path(folder, name), na.strings = "", stringsAsFactors = FALSE, check.names = FALSE)
shots <- read("shots.csv")
summary <- read("summary.csv")
stopifnot(is.integer(shots$shot_id), is.numeric(shots$rate_rpm), is.character(shots$implement))
kept <- shots[shots$standing == "kept", ]
cells <- summary
for (i in seq_len(nrow(cells))) {
  own <- kept[kept$cell_id == cells$cell_id[i], ]
  stopifnot(nrow(own) == cells$kept[i],
            abs(mean(own$rate_rpm) - cells$mean_rpm[i]) < 1e-9 * abs(cells$mean_rpm[i]),
            abs(median(own$rate_rpm) - cells$median_rpm[i]) < 1e-9 * abs(cells$median_rpm[i]),
            abs(sd(own$rate_rpm) - cells$standard_deviation_rpm[i]) < 1e-9 * cells$standard_deviation_rpm[i])
}
readings <- read("readings.csv")
stopifnot(all(readings$shot_id %in% shots$shot_id))
cat(nrow(cells), "cells agree\n")
