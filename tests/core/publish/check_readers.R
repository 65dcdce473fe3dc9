# Repeatability, reproducibility, intraclass correlation and limits of agreement from readings.csv,
# with nothing but R's own aov(), mean() and sd(). Prints "name value" lines.
folder <- commandArgs(trailingOnly = TRUE)[1]
all <- read.csv(file.path(folder, "readings.csv"), fileEncoding = "UTF-8")
all <- all[all$method == "marks", ]
all <- all[order(all$reading_id), ]
say <- function(name, value) cat(name, format(value, digits = 17), "\n")
rates <- function(reader, k) {
  one <- all[all$reader == reader, ]
  sapply(split(one$rate_rpm, one$shot_id), function(x) x[k])
}
readers <- sort(unique(all$reader))
for (i in seq_along(readers)) {
  d <- rates(readers[i], 1) - rates(readers[i], 2)
  say(paste0("repeatability_", readers[i]), sqrt(mean(d^2) / 2))
  for (j in seq_along(readers)) if (j > i) {
    d <- rates(readers[i], 1) - rates(readers[j], 1)
    pair <- paste0(readers[i], "_", readers[j])
    say(paste0("bias_", pair), mean(d))
    say(paste0("lower_", pair), mean(d) - 1.96 * sd(d))
    say(paste0("upper_", pair), mean(d) + 1.96 * sd(d))
  }
}
n <- length(unique(all$shot_id)); k <- length(readers); r <- 2
once <- do.call(rbind, lapply(readers, function(x)
  data.frame(shot = names(rates(x, 1)), reader = x, rate = rates(x, 1))))
ms <- summary(aov(rate ~ factor(shot) + factor(reader), once))[[1]][["Mean Sq"]]
say("icc", (ms[1] - ms[3]) / (ms[1] + (k - 1) * ms[3] + k * (ms[2] - ms[3]) / n))
twice <- data.frame(shot = factor(all$shot_id), reader = factor(all$reader), rate = all$rate_rpm)
ms <- summary(aov(rate ~ shot * reader, twice))[[1]][["Mean Sq"]]
interaction <- max(0, (ms[3] - ms[4]) / r)
say("gauge_repeatability", ms[4])
say("gauge_reproducibility", max(0, (ms[2] - ms[3]) / (n * r)) + interaction)
