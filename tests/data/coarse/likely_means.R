# Means of coarse readings by the likelihood of each, profiled over the scatter, with base R only
# (integrate, optimize, uniroot) and without the straight lines that the program puts in the place
# of curves. Data are made here. Writes likely_means.csv:
#   Rscript likely_means.R > likely_means.csv
set.seed(20261129)
per.minute <- 60 * 120
likelihood <- function(habit, k) switch(habit,
  nearest = list(low = per.minute / (k + 0.5), high = per.minute / (k - 0.5), f = function(x) rep(1, length(x))),
  after = list(low = per.minute / k, high = per.minute / (k - 1), f = function(x) rep(1, length(x))),
  both = list(low = per.minute / (k + 1), high = per.minute / (k - 1), f = function(x) 1 - abs(per.minute / x - k)))
one <- function(l, mu, s) {
  z <- function(x) (x - mu) / s
  if (all(l$f(c(l$low, l$high)) == 1)) {
    return(if (mu < l$low) pnorm(z(l$low), lower.tail = FALSE) - pnorm(z(l$high), lower.tail = FALSE)
           else pnorm(z(l$high)) - pnorm(z(l$low)))
  }
  top <- 2 / (1 / l$low + 1 / l$high)
  cuts <- sort(unique(pmin(pmax(c(l$low, top, mu - 8 * s, mu - 3 * s, mu, mu + 3 * s, mu + 8 * s, l$high), l$low), l$high)))
  sum(sapply(seq_len(length(cuts) - 1), function(i)
    integrate(function(x) l$f(x) * dnorm(x, mu, s), cuts[i], cuts[i + 1], rel.tol = 1e-10, abs.tol = 0)$value))
}
analyse <- function(habit, counts) {
  table <- table(counts); ks <- as.integer(names(table)); ls <- lapply(ks, function(k) likelihood(habit, k))
  n <- length(counts); t <- qt(0.975, n - 1)
  least <- 0.03 * min(sapply(ls, function(l) l$high - l$low))
  range <- c(min(sapply(ls, `[[`, "low")), max(sapply(ls, `[[`, "high")))
  loglik <- function(mu, s) sum(table * log(sapply(ls, one, mu = mu, s = s)))
  profile <- function(mu) {
    o <- optimize(function(q) loglik(mu, exp(q)), log(c(least, 4 * diff(range))), maximum = TRUE, tol = 1e-9)
    at.least <- loglik(mu, least)
    if (at.least >= o$objective) c(at.least, least) else c(o$objective, exp(o$maximum))
  }
  inner <- range + c(0.02, -0.02) * diff(range)
  best <- optimize(function(mu) profile(mu)[1], inner, maximum = TRUE, tol = 1e-7)
  mu <- best$maximum; top <- profile(mu)
  allowed <- 0.5 * n * log1p(t^2 / (n - 1))
  # Where the log likelihood has fallen by so much on one side.
  end <- function(side, allowed) {
    excess <- function(m) profile(m)[1] - top[1] + allowed
    step <- 0.02 * diff(range); m <- mu
    while (excess(m + side * step) > 0) m <- m + side * step
    uniroot(excess, sort(c(m, m + side * step)), tol = 1e-7)$root
  }
  mean <- (end(-1, 0.02 * allowed) + end(1, 0.02 * allowed)) / 2
  c(mean, end(-1, allowed), end(1, allowed), profile(mean)[2] * sqrt(n / (n - 1)))
}
cat("habit,counts,mean,low,high,scatter\n")
count <- function(habit, f) {
  x <- per.minute / f
  switch(habit, nearest = round(x), after = ceiling(x), both = round(x + runif(length(x), -0.5, 0.5)))
}
put <- function(habit, counts) {
  r <- analyse(habit, counts)
  cat(sprintf("%s,%s,%.5f,%.5f,%.5f,%.4f\n", habit, paste(sort(counts), collapse = " "), r[1], r[2], r[3], r[4]))
}
for (habit in c("nearest", "both", "after")) {
  put(habit, rep(5, 10))
  put(habit, c(5, 5, 5, 6))
  for (i in 1:7) {
    n <- c(4, 6, 10, 20)[1 + i %% 4]
    put(habit, count(habit, rnorm(n, runif(1, 1000, 1800), c(30, 60, 100, 150)[1 + (i * 3) %% 4])))
  }
}
