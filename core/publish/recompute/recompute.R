# recompute.R: works out every number of this publication anew from its tables, and compares.
#
#   Rscript recompute.R [folder of the tables]
#
# Needs R 3.6 or later and no package. Reads the CSV files alone. Prints the largest difference of
# each table; ends with exit code 1 if a number differs by more than its published digits allow.
# Those are two significant digits of the standard uncertainty (JCGM 100, 7.2.6), so a difference of
# 0.5 % of the standard uncertainty, at most 0.5 rpm, is within rounding; so are 0.5 % of an
# uncertainty, a scatter, a p value or a number of degrees of freedom. Ranks and chances are
# simulated: they must agree to the noise of both simulations.

arguments <- commandArgs(trailingOnly = TRUE)
folder <- if (length(arguments) > 0) arguments[1] else "."
set.seed(20260516)

# ---------------------------------------------------------------- tables and comparisons

table_of <- function(name) {
  file <- file.path(folder, paste0(name, ".csv"))
  if (!file.exists(file)) return(NULL)
  read.csv(file, colClasses = "character", na.strings = "", fileEncoding = "UTF-8",
           check.names = FALSE, comment.char = "")
}
number <- function(x) suppressWarnings(as.numeric(x))

largest <- list()   # of each quantity: the difference that uses most of its tolerance
failures <- character(0)

note <- function(table, what, difference, beyond, count, tolerance = 1) {
  key <- paste(table, what, sep = ": ")
  share <- ifelse(difference > 0, difference / pmax(tolerance, 1e-300), 0)
  at <- if (length(share) > 0) which.max(share) else 0L
  largest[[length(largest) + 1]] <<- list(table = table, what = what, count = count,
                                          worst = if (length(at) == 1 && at > 0) difference[at] else 0,
                                          share = if (length(at) == 1 && at > 0) share[at] else 0)
  if (any(beyond)) failures <<- c(failures, sprintf("%s: %d of %d are off", key, sum(beyond), count))
}

# Published and computed values; a value that only one of the two has is off.
compare <- function(table, what, published, computed, tolerance) {
  published <- number(published)
  one_sided <- xor(is.na(published), is.na(computed))
  difference <- abs(published - computed)
  both <- !is.na(difference)
  tolerance <- rep_len(tolerance, length(published))
  note(table, what, difference[both], one_sided | (both & difference > tolerance), length(published), tolerance[both])
}
compare_text <- function(table, what, published, computed) {
  same <- (is.na(published) & is.na(computed)) | (!is.na(published) & !is.na(computed) & published == computed)
  note(table, what, as.numeric(!same), !same, length(published))
}
of_value <- function(u) pmin(0.5, 0.005 * ifelse(is.na(u) | u <= 0, 1, u))
of_size <- function(x) 0.005 * abs(ifelse(is.na(x), 0, x)) + 1e-9
of_p <- function(p) 0.005 * ifelse(is.na(p), 0, p) + 0.0005

# ---------------------------------------------------------------- what one reading says

# A reading is normal (value, sigma), or it lies between bounds: then the period, the reciprocal of
# the rate, has a trapezoid for its likelihood, flat over a share `top` of its base, and a normal
# error of `sigma` on top. The trapezoid is followed by short chords over the rate.
chords <- 32
bounded <- function(low, high, top, sigma = 0) {
  p_low <- 1 / high; p_high <- 1 / low
  flank <- (1 - top) / 2 * (p_high - p_low)
  height <- function(f) {
    p <- 1 / f
    if (flank <= 0) rep(1, length(f)) else pmax(0, pmin(1, (p - p_low) / flank, (p_high - p) / flank))
  }
  at <- c(low, high)
  if (flank > 0) {
    left <- 1 / (p_high - flank); right <- 1 / (p_low + flank)
    at <- unique(c(seq(low, left, length.out = chords + 1), seq(right, high, length.out = chords + 1)))
  }
  h <- height(at)
  if (flank > 0) { h[1] <- 0; h[length(h)] <- 0 }
  n <- length(at); a <- at[-n]; b <- at[-1]; ha <- h[-n]; hb <- h[-1]; w <- b - a
  mass <- sum(w * (ha + hb) / 2)
  value <- sum(w * (ha * (2 * a + b) + hb * (a + 2 * b)) / 6) / mass
  a0 <- a - value; b0 <- b - value
  second <- sum(w * (ha * (3 * a0^2 + 2 * a0 * b0 + b0^2) + hb * (a0^2 + 2 * a0 * b0 + 3 * b0^2)) / 12) / mass
  list(is_bounded = TRUE, value = value, sigma = sigma, low = low, high = high, top = top,
       spread = sqrt(sigma^2 + second), a = a, b = b, slope = (hb - ha) / w, ha = ha)
}
normal <- function(value, sigma)
  list(is_bounded = FALSE, value = value, sigma = sigma, top = 0, spread = sigma)

# Between hard limits a reading of known variance: as sure as a trapezoid of that variance. One that
# is much surer than the triangle does not rest on its limits.
between_limits <- function(low, high, rate, variance) {
  least <- bounded(low, high, 0)$spread^2
  if (variance < 0.8 * least) return(normal(rate, sqrt(variance)))
  most <- bounded(low, high, 1)$spread^2
  if (variance >= most) return(bounded(low, high, 1, sqrt(variance - most)))
  bounded(low, high, sqrt(min(1, max(0, (variance - least) / (most - least)))))
}

reading_of <- function(r) {
  rate <- r$rate; view <- if (is.na(r$view_relative)) 0 else r$view_relative
  own <- max(0, r$u^2 - (rate * r$clock_relative)^2 - (rate * view)^2)
  limits <- !is.na(r$low) && !is.na(r$high) && r$low > 0 && r$low < r$high
  habit_rpm <- 0
  if (limits && !is.na(r$habit)) {
    if (r$habit == "unknown") {
      # Halfway between a nearest return and the first frame past it; a quarter of a frame either
      # way is the habit's own part.
      p_low <- 1 / r$high; p_high <- 1 / r$low
      frame <- (p_high - p_low) / 2
      middle <- (p_low + p_high) / 2 - frame / 4
      likelihood <- bounded(1 / (middle + frame / 2), 1 / (middle - frame / 2), 1)
      habit_rpm <- frame / 4 / middle^2
    } else {
      likelihood <- bounded(r$low, r$high, if (r$habit == "both") 0 else 1)
    }
  } else if (limits) {
    likelihood <- between_limits(r$low, r$high, rate, own)
  } else {
    likelihood <- normal(rate, sqrt(own))
  }
  list(rate = rate, likelihood = likelihood, clock = rate * r$clock_relative, view = rate * view,
       habit = habit_rpm, clock_relative = r$clock_relative, view_relative = view)
}

# log of the integral of a reading's likelihood under a normal law
log_likelihood <- function(reading, mu, deviation) {
  if (!reading$is_bounded) {
    v <- deviation^2 + reading$sigma^2
    return(-0.5 * ((reading$value - mu)^2 / v + log(v)))
  }
  s <- sqrt(deviation^2 + reading$sigma^2)
  za <- (reading$a - mu) / s; zb <- (reading$b - mu) / s
  # Tails from the side on which they are small.
  p <- ifelse(za > 0, pnorm(za, lower.tail = FALSE) - pnorm(zb, lower.tail = FALSE), pnorm(zb) - pnorm(za))
  d <- s * (dnorm(za) - dnorm(zb))   # integral of (x - mu) times the density
  total <- sum(reading$ha * p + reading$slope * (d + (mu - reading$a) * p))
  if (is.finite(total) && total > 1e-290) return(log(total))
  edge <- if (mu < reading$low) reading$low else reading$high
  min(log(1e-290), -0.5 * ((edge - mu) / s)^2)
}

# ---------------------------------------------------------------- mean of a cell

plain_mean <- function(values) {
  n <- length(values); s <- sd(values); e <- s / sqrt(n); t <- qt(0.975, n - 1)
  list(mean = mean(values), shots = e, coarse = 0, low = mean(values) - t * e, high = mean(values) + t * e,
       scatter = s, hidden = FALSE)
}

profiled_mean <- function(readings) {
  n <- length(readings)
  key <- vapply(readings, function(r) paste(format(c(r$value, r$sigma, r$top, r$spread), digits = 15), collapse = " "), "")
  groups <- readings[!duplicated(key)]
  counts <- as.vector(table(factor(key, levels = unique(key))))
  is_b <- vapply(readings, function(r) r$is_bounded, TRUE)
  lows <- vapply(readings, function(r) (if (r$is_bounded) r$low else r$value) - r$sigma, 0)
  highs <- vapply(readings, function(r) (if (r$is_bounded) r$high else r$value) + r$sigma, 0)
  width <- max(max(highs) - min(lows), 1e-12 * abs(max(highs)))
  most_deviation <- 4 * width
  narrowest <- if (any(is_b)) min(vapply(readings[is_b], function(r) r$high - r$low, 0)) else NA
  least <- if (is.na(narrowest)) 1e-9 * most_deviation else 0.03 * narrowest
  likelihood <- function(mu, deviation)
    sum(counts * vapply(groups, log_likelihood, 0, mu = mu, deviation = deviation))
  profile <- function(mu) {
    f <- function(x) likelihood(mu, exp(x))
    # There may be two summits: one where coarseness explains all, one where the shots differ.
    grid <- seq(log(least), log(most_deviation), length.out = 16)
    k <- which.max(vapply(grid, f, 0))
    best <- optimize(f, grid[c(max(1, k - 1), min(16, k + 1))], maximum = TRUE, tol = 1e-8)
    at <- exp(best$maximum); value <- best$objective
    edge <- f(log(least))
    if (edge >= value - 1e-12) { at <- least; value <- edge }
    list(value = value, deviation = at)
  }
  value_at <- function(mu) profile(mu)$value
  top <- optimize(value_at, c(min(lows), max(highs)), maximum = TRUE, tol = 1e-7 * width)
  start <- top$maximum; most <- top$objective
  t <- qt(0.975, n - 1)
  allowed <- 0.5 * n * log1p(t^2 / (n - 1))
  end <- function(side, fall) {
    inside <- start; step <- 0.05 * width; outside <- start + side * step
    while (value_at(outside) > most - fall) { inside <- outside; step <- 1.5 * step; outside <- outside + side * step }
    uniroot(function(mu) value_at(mu) - most + fall, sort(c(inside, outside)), tol = 1e-8 * width)$root
  }
  low <- end(-1, allowed); high <- end(1, allowed)
  mean <- (end(-1, 0.02 * allowed) + end(1, 0.02 * allowed)) / 2
  deviation <- profile(mean)$deviation
  scatter <- deviation * sqrt(n / (n - 1)); shots <- scatter / sqrt(n)
  half <- (high - low) / 2
  list(mean = mean, shots = shots, coarse = sqrt(max(0, half^2 - (t * shots)^2)) / qnorm(0.975),
       low = low, high = high, scatter = scatter, hidden = deviation <= 1.001 * least)
}

likely_mean <- function(given) {
  n <- length(given)
  common <- min(vapply(given, function(r) if (r$is_bounded) 0 else r$sigma, 0))
  readings <- lapply(given, function(r) {
    if (common > 0) { r$sigma <- sqrt(max(0, r$sigma^2 - common^2)); r$spread <- r$sigma }
    r
  })
  plain <- plain_mean(vapply(readings, function(r) r$value, 0))
  widest <- max(vapply(readings, function(r) r$spread, 0))
  m <- plain; common_error <- 0
  if (widest > 0.1 * plain$scatter) {
    coarse <- profiled_mean(readings)
    share <- if (plain$scatter > 0) (widest / plain$scatter - 0.1) / 0.05 else 1
    m <- coarse
    if (share < 1) {
      for (x in c("mean", "shots", "coarse", "low", "high", "scatter"))
        m[[x]] <- plain[[x]] + share * (coarse[[x]] - plain[[x]])
      m$hidden <- FALSE
    }
    tops <- sum(vapply(readings, function(r) if (r$is_bounded) r$top else 0, 0))
    common_error <- m$coarse * tops / n
  }
  m$common <- common_error
  m$error <- sqrt(m$shots^2 + m$coarse^2)
  m$dof <- if (m$coarse > 0) (n - 1) * (m$error / m$shots)^4 else n - 1
  m
}

widened <- function(m, shared) {
  total <- sqrt(m$error^2 + shared^2)
  if (!(m$error > 0)) {
    reach <- qnorm(0.975) * total
    return(list(u = total, dof = Inf, low = m$mean - reach, high = m$mean + reach))
  }
  ratio <- total / m$error
  dof <- m$dof * ratio^4
  w <- ratio * qt(0.975, dof) / qt(0.975, m$dof)
  list(u = total, dof = dof, low = m$mean - w * (m$mean - m$low), high = m$mean + w * (m$high - m$mean))
}

# Restricted likelihood of the variance between shots (Viechtbauer 2005, eq. 8).
shot_scatter <- function(y, u) {
  sums <- function(tau2) {
    w <- 1 / (u^2 + tau2); m <- sum(w * y) / sum(w)
    c(score = sum(w^2 * (y - m)^2) - (sum(w) - sum(w^2) / sum(w)), q = sum(w * (y - m)^2))
  }
  tau2 <- 0
  if (sums(0)["score"] > 0) {
    high <- var(y)
    while (sums(high)["score"] > 0) high <- 2 * high
    tau2 <- uniroot(function(x) sums(x)["score"], c(0, high), tol = 1e-10 * high)$root
  }
  list(between = sqrt(tau2), p = pchisq(sums(0)[["q"]], length(y) - 1, lower.tail = FALSE))
}

# ---------------------------------------------------------------- readings

about <- table_of("about")
fact <- function(item) about$value[match(item, about$item)]
step <- number(fact("noticeable_step_rpm"))
published_draws <- number(fact("rank_draws"))

raw <- table_of("readings")
shots <- table_of("shots")
given <- data.frame(id = raw$reading_id, shot = raw$shot_id, rate = number(raw$rate_rpm),
                    u = number(raw$standard_uncertainty_rpm), low = number(raw$bound_low_rpm),
                    high = number(raw$bound_high_rpm), habit = raw$counting_habit, method = raw$method,
                    clock_relative = number(raw$clock_relative_uncertainty),
                    view_relative = number(raw$view_relative_uncertainty), stringsAsFactors = FALSE)
readings <- lapply(seq_len(nrow(given)), function(i) reading_of(as.list(given[i, ])))
part <- function(name) vapply(readings, function(r) r[[name]], 0)
own <- vapply(readings, function(r) r$likelihood$spread, 0)
if (nrow(given) > 0) {
  compare("readings", "own part", raw$own_uncertainty_rpm, own, of_size(own))
  for (name in c("clock", "view", "habit")) {
    named <- !is.na(raw[[paste0(name, "_part")]])
    compare("readings", paste(name, "part"), raw[[paste0(name, "_uncertainty_rpm")]][named],
            part(name)[named], of_size(part(name)[named]))
  }
}

# Whole-frame counts: the limits and the rate from frames, turns and capture rate.
frames <- number(raw$frames); turns <- number(raw$turns); fps <- number(raw$capture_rate_fps)
counted <- !is.na(given$habit) & !is.na(frames) & !is.na(turns) & !is.na(fps)
if (any(counted)) {
  before <- c(nearest = 0.5, both = 1, after = 1, unknown = 1)[given$habit[counted]]
  behind <- c(nearest = 0.5, both = 1, after = 0, unknown = 1)[given$habit[counted]]
  a <- (frames[counted] - before) / fps[counted] / turns[counted]
  b <- (frames[counted] + behind) / fps[counted] / turns[counted]
  compare("readings", "limits of counts", c(raw$bound_low_rpm[counted], raw$bound_high_rpm[counted]),
          c(60 / b, 60 / a), of_value(c(given$u[counted], given$u[counted])))
  middle <- (a + b) / 2; half <- (b - a) / 2
  flat <- 60 * log(b / a) / (b - a)
  triangle <- 60 * (a * log(a) + b * log(b) - 2 * middle * log(middle)) / half^2
  rate <- ifelse(given$habit[counted] == "both", triangle, flat)
  compare("readings", "rates of counts", raw$rate_rpm[counted], rate, of_value(given$u[counted]))
}

# ---------------------------------------------------------------- cells

cells <- table_of("summary")
counting <- shots$standing == "kept" & !is.na(shots$reading_id) & !is.na(shots$cell_id) &
  (is.na(shots$left_out) | shots$left_out == "")
by_cell <- split(match(shots$reading_id[counting], given$id), shots$cell_id[counting])
parts_of_cells <- list()
cell_results <- lapply(seq_len(nrow(cells)), function(i) {
  at <- by_cell[[cells$cell_id[i]]]
  result <- list(id = cells$cell_id[i], session = cells$session_id[i], implement = cells$implement_id[i],
                 hitter = cells$hitter_id[i], n = length(at), mean = NA_real_)
  if (length(at) == 0) return(result)
  mine <- readings[at]
  rates <- given$rate[at]
  result$median <- median(rates)
  if (length(at) == 1) { result$mean <- rates; return(result) }
  m <- likely_mean(lapply(mine, function(r) r$likelihood))
  n <- length(at)
  shared <- list()
  clock <- max(given$clock_relative[at])
  if (clock > 0) shared[[paste0("clock:", result$session)]] <- clock * m$mean
  for (method in unique(given$method[at])) {
    these <- given$method[at] == method
    view <- sum(part("view")[at][these]) / n
    name <- paste0("view:", result$session, ":", gsub(" ", "_", method))
    if (view > 0) shared[[name]] <- view
  }
  habit <- sum(part("habit")[at]) / n
  if (habit > 0) shared[[paste0("habit:", result$session)]] <- habit
  result$own <- m
  result$mean <- m$mean
  result$shared <- unlist(shared)
  result$total <- widened(m, sqrt(sum(result$shared^2)))
  if (all(own[at] > 0)) {
    result$reading_scatter <- sqrt(mean(own[at]^2))
    result$split <- shot_scatter(rates, own[at])
  }
  result
})
pick <- function(list, f) vapply(list, function(x) { v <- f(x); if (is.null(v)) NA_real_ else as.numeric(v) }, 0)
finite <- function(x) ifelse(is.finite(x), x, NA)
u <- pick(cell_results, function(x) x$total$u)
scatter <- pick(cell_results, function(x) x$own$scatter)
if (nrow(cells) > 0) {
  compare("summary", "kept", cells$kept, pick(cell_results, function(x) x$n), 0)
  compare("summary", "mean", cells$mean_rpm, pick(cell_results, function(x) x$mean), of_value(u))
  compare("summary", "median", cells$median_rpm, pick(cell_results, function(x) x$median), 1e-6)
  compare("summary", "interval", c(cells$interval_low_rpm, cells$interval_high_rpm),
          c(pick(cell_results, function(x) x$total$low), pick(cell_results, function(x) x$total$high)), of_value(c(u, u)))
  compare("summary", "standard uncertainty", cells$standard_uncertainty_rpm, u, of_size(u))
  compare("summary", "scatter", cells$standard_deviation_rpm, scatter, of_size(scatter))
  dof <- pick(cell_results, function(x) x$total$dof)
  compare("summary", "degrees of freedom", cells$degrees_of_freedom, finite(dof), of_size(dof))
  for (name in c(own = "error", shots = "shots", coarseness = "coarse", common_coarseness = "common"))
    compare("summary", paste(name, "part"),
            cells[[paste0(c(error = "own", shots = "shots", coarse = "coarseness", common = "common_coarseness")[name],
                          "_uncertainty_rpm")]],
            pick(cell_results, function(x) x$own[[name]]), of_size(u))
  compare("summary", "readings' scatter", cells$reading_scatter_rpm,
          pick(cell_results, function(x) x$reading_scatter), of_size(scatter))
  compare("summary", "shots' scatter", cells$shot_scatter_rpm,
          pick(cell_results, function(x) x$split$between), of_size(scatter))
  p <- pick(cell_results, function(x) x$split$p)
  compare("summary", "p of the scatter", cells$scatter_p, p, of_p(p))
}
published_parts <- table_of("cell_parts")
if (!is.null(published_parts) && nrow(published_parts) > 0) {
  effects <- mapply(function(cell, name) {
    shared <- cell_results[[match(cell, cells$cell_id)]]$shared
    if (name %in% names(shared)) shared[[name]] else NA_real_
  }, published_parts$cell_id, published_parts$part)
  compare("cell_parts", "effect", published_parts$effect_rpm, effects, of_size(effects))
  note("cell_parts", "number of parts", 0,
       sum(vapply(cell_results, function(x) length(x$shared), 0L)) != nrow(published_parts), 1)
}

# ---------------------------------------------------------------- implements and comparisons

average_of <- function(these) {
  k <- length(these)
  v <- vapply(these, function(x) x$own$error^2, 0); dofs <- vapply(these, function(x) x$own$dof, 0)
  common <- vapply(these, function(x) x$own$common, 0)
  n <- vapply(these, function(x) x$n, 0L)
  variance <- sum(v) / k^2 + (sum(common)^2 - sum(common^2)) / k^2
  # Welch and Satterthwaite
  dof <- variance^2 / sum(ifelse(v > 0, (v / k^2)^2 / dofs, 0))
  shared <- numeric(0)
  for (x in these) for (name in names(x$shared))
    shared[name] <- (if (name %in% names(shared)) shared[[name]] else 0) + x$shared[[name]] / k
  list(mean = mean(vapply(these, function(x) x$mean, 0)), variance = variance, dof = dof,
       scatter = sqrt(sum((n - 1) * vapply(these, function(x) x$own$scatter, 0)^2) / sum(n - 1)),
       shared = shared, shots = sum(n))
}
reach_of <- function(variance, dof, shared) {
  total <- variance + sum(shared^2)
  wide <- dof * (total / variance)^2
  list(u = sqrt(total), dof = wide, half = qt(0.975, wide) * sqrt(total))
}

implements <- table_of("implements")
plain <- lapply(implements$implement_id, function(id) {
  these <- Filter(function(x) x$implement == id && !is.na(x$mean), cell_results)
  if (length(these) == 0) return(list())
  known <- Filter(function(x) !is.null(x$own), these)
  result <- list(mean = mean(vapply(these, function(x) x$mean, 0)))
  if (length(these) == 1 && length(known) == 1)
    return(list(mean = known[[1]]$mean, scatter = known[[1]]$own$scatter, u = known[[1]]$total$u,
                dof = known[[1]]$total$dof, low = known[[1]]$total$low, high = known[[1]]$total$high))
  if (length(known) > 0) {
    average <- average_of(known)
    result$scatter <- average$scatter
    if (length(known) == length(these)) {
      result$u <- sqrt(average$variance + sum(average$shared^2))
      if (is.finite(average$dof) && average$dof > 0) {
        reach <- reach_of(average$variance, average$dof, average$shared)
        result$dof <- reach$dof; result$low <- result$mean - reach$half; result$high <- result$mean + reach$half
      }
    }
  }
  result
})
if (length(plain) > 0) {
  u <- pick(plain, function(x) x$u)
  compare("implements", "mean", implements$mean_rpm, pick(plain, function(x) x$mean), of_value(u))
  compare("implements", "scatter", implements$standard_deviation_rpm, pick(plain, function(x) x$scatter),
          of_size(pick(plain, function(x) x$scatter)))
  compare("implements", "standard uncertainty", implements$standard_uncertainty_rpm, u, of_size(u))
  compare("implements", "interval", c(implements$interval_low_rpm, implements$interval_high_rpm),
          c(pick(plain, function(x) x$low), pick(plain, function(x) x$high)), of_value(c(u, u)))
}

# Weighted least squares of one value a cell on implement + block; every block weighs the same in a
# mean. NULL where the cells do not link all implements.
additive <- function(rows, blocks, weights, values) {
  rows <- factor(rows, unique(rows)); blocks <- factor(blocks, unique(blocks))
  k <- nlevels(rows); b <- nlevels(blocks)
  design <- cbind(outer(as.integer(rows), seq_len(k), "==") * 1,
                  outer(as.integer(blocks), seq_len(b)[-1], "==") * 1)
  cross <- crossprod(design * sqrt(weights))
  if (qr(cross, tol = 1e-10)$rank < ncol(design)) return(NULL)
  inverse <- solve(cross)
  coefficients <- inverse %*% crossprod(design, weights * values)
  level <- cbind(diag(k), matrix(1 / b, k, b - 1))
  list(means = as.vector(level %*% coefficients), unscaled = level %*% inverse %*% t(level),
       residual = sum(weights * (values - design %*% coefficients)^2), names = levels(rows))
}

# The means that are compared, highest first: their covariance without shared parts, and the effects
# of the shared parts on each.
compared_means <- function(hitter) {
  used <- Filter(function(x) !is.null(x$own) && (is.na(hitter) || x$hitter == hitter), cell_results)
  ids <- unique(vapply(used, function(x) x$implement, ""))
  of <- lapply(ids, function(id) Filter(function(x) x$implement == id, used))
  has_scatter <- vapply(of, function(these) any(vapply(these, function(x) x$own$error > 0, TRUE)), TRUE)
  ids <- ids[has_scatter]; of <- of[has_scatter]
  if (length(ids) == 0) return(NULL)
  flat <- do.call(c, of)
  block <- vapply(flat, function(x) paste(x$session, x$hitter), "")
  averages <- lapply(of, average_of)
  parts <- unique(unlist(lapply(flat, function(x) names(x$shared))))
  effect <- function(x) vapply(parts, function(p) if (p %in% names(x)) x[[p]] else 0, 0)
  result <- list(ids = ids, mean = vapply(averages, function(a) a$mean, 0),
                 covariance = diag(vapply(averages, function(a) a$variance, 0), length(ids)),
                 dof = vapply(averages, function(a) a$dof, 0), scatter = vapply(averages, function(a) a$scatter, 0),
                 shots = vapply(averages, function(a) a$shots, 0L),
                 shared = matrix(unlist(lapply(averages, function(a) effect(a$shared))), nrow = length(ids), byrow = TRUE),
                 model = "cell_means", comparable = TRUE,
                 own = lapply(of, function(these) if (length(these) == 1) these[[1]]$total else NULL))
  full <- all(vapply(of, length, 0L) == length(unique(block)))
  if (length(ids) > 1 && !full) {
    result$model <- "additive"
    row <- vapply(flat, function(x) x$implement, ""); n <- vapply(flat, function(x) x$n, 0L)
    fit <- additive(row, block, n, vapply(flat, function(x) x$mean, 0))
    if (is.null(fit)) {
      result$comparable <- FALSE
    } else {
      within <- sum(vapply(flat, function(x) x$own$error^2, 0) * n * (n - 1))
      dof <- sum(n) - (length(ids) + length(unique(block)) - 1)
      result$mean <- fit$means
      result$covariance <- (within + fit$residual) / dof * fit$unscaled
      result$dof <- rep(dof, length(ids))
      result$own <- vector("list", length(ids))
      for (j in seq_along(parts)) {
        values <- vapply(flat, function(x) if (parts[j] %in% names(x$shared)) x$shared[[parts[j]]] else 0, 0)
        result$shared[, j] <- additive(row, block, n, values)$means
      }
      centre <- tapply(n * vapply(flat, function(x) x$mean, 0), block, sum) / tapply(n, block, sum)
      about_blocks <- sum(n * (vapply(flat, function(x) x$mean, 0) - centre[block])^2)
      result$f <- list(f = (about_blocks - fit$residual) / (length(ids) - 1) / (within / sum(n - 1)),
                       dof1 = length(ids) - 1, dof2 = sum(n - 1))
    }
  }
  order <- order(-result$mean)
  for (x in c("ids", "mean", "dof", "scatter", "shots", "own")) result[[x]] <- result[[x]][order]
  result$covariance <- result$covariance[order, order, drop = FALSE]
  result$shared <- result$shared[order, , drop = FALSE]
  result
}

welch <- function(c) {
  v <- diag(c$covariance); k <- length(c$mean); w <- 1 / v
  centre <- sum(w * c$mean) / sum(w)
  imbalance <- sum((1 - w / sum(w))^2 / c$dof)
  list(f = sum(w * (c$mean - centre)^2) / (k - 1) / (1 + 2 * (k - 2) / (k^2 - 1) * imbalance),
       dof1 = k - 1, dof2 = (k^2 - 1) / (3 * imbalance))
}

# Studentized range. ptukey() wants two degrees of freedom or more; below, its normal form is
# integrated over the distribution of the standard deviation.
range_upper <- function(q, k, dof) {
  mapply(function(q, dof) {
    if (dof >= 2) return(ptukey(q, k, dof, lower.tail = FALSE))
    density <- function(s) exp(log(2) + dof / 2 * log(dof / 2) - lgamma(dof / 2) + (dof - 1) * log(s) - dof * s^2 / 2)
    integrate(function(s) density(s) * ptukey(q * s, k, Inf, lower.tail = FALSE), 0, Inf,
              rel.tol = 1e-9, subdivisions = 2000)$value
  }, q, dof)
}
range_quantile <- function(alpha, k, dof) {
  solve_for <- function(d) uniroot(function(q) range_upper(q, k, d) - alpha, c(0.01, if (d < 2) 5000 else 300), tol = 1e-9)$root
  different <- sort(unique(dof))
  if (length(different) <= 200) return(vapply(different, solve_for, 0)[match(dof, different)])
  nodes <- 1 / seq(1 / max(different), 1 / min(different), length.out = 100)
  exp(splinefun(1 / nodes, log(vapply(nodes, solve_for, 0)))(1 / dof))
}

judged_pairs <- function(c) {
  k <- length(c$mean)
  index <- which(upper.tri(diag(k)), arr.ind = TRUE)
  index <- index[order(index[, 1], index[, 2]), , drop = FALSE]
  i <- index[, 1]; j <- index[, 2]
  v <- diag(c$covariance)
  variance <- v[i] + v[j] - 2 * c$covariance[index]
  dof <- if (c$model == "additive") c$dof[i] else variance^2 / (v[i]^2 / c$dof[i] + v[j]^2 / c$dof[j])
  apart <- rowSums((c$shared[i, , drop = FALSE] - c$shared[j, , drop = FALSE])^2)
  total <- variance + apart
  wide <- dof * (total / variance)^2
  se <- sqrt(total); difference <- c$mean[i] - c$mean[j]
  r95 <- range_quantile(0.05, k, wide) * se / sqrt(2)
  r90 <- range_quantile(0.10, k, wide) * se / sqrt(2)
  p <- data.frame(i = i, j = j, first = c$ids[i], second = c$ids[j], difference = difference, se = se, dof = wide,
                  low = difference - r95, high = difference + r95, eq_low = difference - r90, eq_high = difference + r90,
                  p = range_upper(difference / (se / sqrt(2)), k, wide), stringsAsFactors = FALSE)
  p$differs <- p$low > 0
  p$verdict <- ifelse(p$differs, "differs", "not_settled")
  if (!is.na(step)) {
    inside <- p$eq_low > -step & p$eq_high < step
    p$verdict <- ifelse(p$low >= step, "differs_by_at_least_step",
                 ifelse(inside, ifelse(p$differs, "differs_by_less_than_step", "equivalent_within_step"), p$verdict))
  }
  p
}

letters_agree <- function(published, pairs, ids) {
  sets <- strsplit(gsub("([a-z][0-9]*)", "\\1 ", published), " ")
  names(sets) <- ids
  vapply(seq_len(nrow(pairs)), function(r)
    (length(intersect(sets[[pairs$first[r]]], sets[[pairs$second[r]]])) > 0) == pairs$differs[r], TRUE)
}

# Ranks and chances. Best and worst ranks by the largest studentized difference from each mean, held
# against critical values that the noise of both simulations allows.
simulated_ranks <- function(c) {
  k <- length(c$mean); draws <- max(500, min(8000, floor(2e7 / k^2)))
  v <- diag(c$covariance); parts <- ncol(c$shared)
  apart <- as.matrix(dist(c$shared))^2
  if (parts == 0) apart <- matrix(0, k, k)
  off <- c$covariance; diag(off) <- 0
  root <- if (c$model == "additive") t(chol(c$covariance)) else NULL
  largest <- matrix(0, draws, k); first <- integer(draws)
  for (d in seq_len(draws)) {
    if (is.null(root)) {
      errors <- sqrt(v) * rnorm(k); scale <- ifelse(c$dof < 1e9, rchisq(k, c$dof) / c$dof, 1); together <- off
    } else {
      errors <- as.vector(root %*% rnorm(k)); scale <- rep(rchisq(1, c$dof[1]) / c$dof[1], k); together <- off * scale[1]
    }
    moved <- if (parts > 0) as.vector(c$shared %*% rnorm(parts)) else numeric(k)
    all <- errors + moved
    variance <- outer(v * scale, v * scale, "+") + apart - 2 * together
    t2 <- outer(all, all, "-")^2 / variance
    diag(t2) <- 0
    largest[d, ] <- sqrt(apply(t2, 1, max))
    first[d] <- which.max(c$mean - errors / sqrt(scale) - moved)
  }
  difference <- outer(c$mean, c$mean, "-")
  se <- sqrt(outer(v, v, "+") - 2 * off + apart); diag(se) <- 1
  noise <- 4.5 * sqrt(0.95 * 0.05 * (1 / draws + 1 / published_draws))
  critical <- apply(largest, 2, quantile, probs = pmin(1, pmax(0, 0.95 + c(-1, 1) * noise)), type = 1)
  best <- function(q) 1 + colSums(difference > rep(q, each = k) * se & !diag(TRUE, k))
  worst <- function(q) k - colSums(-difference > rep(q, each = k) * se & !diag(TRUE, k))
  chance <- tabulate(first, k) / draws
  list(best = cbind(best(critical[2, ]), best(critical[1, ])), worst = cbind(worst(critical[1, ]), worst(critical[2, ])),
       chance = chance, draws = draws)
}

check_ranking <- function(table, ranking, pairs, hitter) {
  c <- compared_means(hitter)
  if (is.null(c) || is.null(ranking) || nrow(ranking) == 0) {
    note(table, "rows", 0, !is.null(c) && !is.null(ranking) && nrow(ranking) != length(c$ids), 1)
    return(NULL)
  }
  reach <- lapply(seq_along(c$ids), function(i) {
    r <- reach_of(c$covariance[i, i], c$dof[i], c$shared[i, ])
    own <- c$own[[i]]
    list(u = r$u, dof = r$dof, low = if (is.null(own)) c$mean[i] - r$half else own$low,
         high = if (is.null(own)) c$mean[i] + r$half else own$high)
  })
  at <- match(ranking$implement_id, c$ids)
  get <- function(name) pick(reach, function(x) x[[name]])[at]
  u <- get("u")
  compare(table, "mean", ranking$mean_rpm, c$mean[at], of_value(u))
  compare(table, "standard uncertainty", ranking$standard_uncertainty_rpm, u, of_size(u))
  compare(table, "degrees of freedom", ranking$degrees_of_freedom, get("dof"), of_size(get("dof")))
  compare(table, "interval", c(ranking$interval_low_rpm, ranking$interval_high_rpm), c(get("low"), get("high")), of_value(c(u, u)))
  compare(table, "scatter", ranking$scatter_rpm, c$scatter[at], of_size(c$scatter[at]))
  compare(table, "shots", ranking$shots, c$shots[at], 0)
  bands <- table_of("bands")
  if (!is.null(bands)) {
    band_of <- function(x) vapply(x, function(v) {
      low <- number(bands$low_rpm); high <- number(bands$high_rpm)
      bands$band[which((is.na(low) | v >= low) & (is.na(high) | v < high))][1]
    }, "")
    compare_text(table, "band", ranking$band, band_of(number(ranking$mean_rpm)))
    compare_text(table, "bands of the interval", c(ranking$band_of_low, ranking$band_of_high),
                 band_of(number(c(ranking$interval_low_rpm, ranking$interval_high_rpm))))
  }
  if (!c$comparable || length(c$ids) < 2) {
    note(table, "rank", 0, any(!is.na(ranking$rank_best)), nrow(ranking))
    return(c)
  }
  ranks <- simulated_ranks(c)
  # Equal means may stand in either order.
  rank <- number(ranking$rank)
  above <- vapply(at, function(i) sum(c$mean > c$mean[i] + 0.01), 0L)
  alike <- vapply(at, function(i) sum(abs(c$mean - c$mean[i]) <= 0.01), 0L)
  compare(table, "rank", rank, pmax(above + 1, pmin(rank, above + alike)), 0)
  outside <- function(published, range) {
    published <- number(published)
    pmax(0, range[at, 1] - published, published - range[at, 2])
  }
  compare(table, "best rank, beyond noise", rep(0, length(at)), outside(ranking$rank_best, ranks$best), 0)
  compare(table, "worst rank, beyond noise", rep(0, length(at)), outside(ranking$rank_worst, ranks$worst), 0)
  chance <- number(ranking$first_chance)
  pooled <- (chance * published_draws + ranks$chance[at] * ranks$draws) / (published_draws + ranks$draws)
  compare(table, "chance to be first", ranking$first_chance, ranks$chance[at],
          4.5 * sqrt(pooled * (1 - pooled) * (1 / published_draws + 1 / ranks$draws)) + 1 / published_draws)
  if (is.null(pairs)) return(c)
  name <- sub("ranking", "pairs", table)
  mine <- judged_pairs(c)
  here <- match(paste(pairs$first_implement_id, pairs$second_implement_id), paste(mine$first, mine$second))
  # Equal means may stand in either order.
  turned <- is.na(here)
  here[turned] <- match(paste(pairs$second_implement_id, pairs$first_implement_id), paste(mine$first, mine$second))[turned]
  mine <- mine[here, ]
  note(name, "number of pairs", 0, nrow(pairs) != length(c$ids) * (length(c$ids) - 1) / 2 || anyNA(here), 1)
  sign <- ifelse(turned, -1, 1)
  compare(name, "difference", pairs$difference_rpm, sign * mine$difference, of_value(mine$se))
  compare(name, "standard error", pairs$standard_error_rpm, mine$se, of_size(mine$se))
  compare(name, "degrees of freedom", pairs$degrees_of_freedom, mine$dof, of_size(mine$dof))
  ends <- function(low, high) c(ifelse(turned, -high, low), ifelse(turned, -low, high))
  compare(name, "interval", c(pairs$interval_low_rpm, pairs$interval_high_rpm), ends(mine$low, mine$high), of_value(c(mine$se, mine$se)))
  compare(name, "interval of equivalence", c(pairs$equivalence_low_rpm, pairs$equivalence_high_rpm),
          ends(mine$eq_low, mine$eq_high), of_value(c(mine$se, mine$se)))
  compare(name, "adjusted p", pairs$adjusted_p, mine$p, of_p(mine$p))
  # A verdict may turn where an end lies on zero or on the step to within rounding.
  edge <- Reduce(pmin, lapply(c(0, if (is.na(step)) NULL else c(step, -step)), function(x)
    pmin(abs(mine$low - x), abs(mine$eq_low - x), abs(mine$eq_high - x))))
  clear <- edge > of_value(mine$se)
  compare_text(name, "differs", pairs$differs[clear], ifelse(mine$differs, "true", "false")[clear])
  compare_text(name, "verdict", pairs$verdict[clear], mine$verdict[clear])
  published <- data.frame(first = pairs$first_implement_id, second = pairs$second_implement_id,
                          differs = pairs$differs == "true", stringsAsFactors = FALSE)
  wrong <- letters_agree(ifelse(is.na(ranking$letters), "", ranking$letters), published, ranking$implement_id)
  note(table, "letters", as.numeric(wrong), wrong, length(wrong))
  c
}

check_comparison <- function(row, c) {
  p <- NULL
  if (!is.null(c) && c$comparable && length(c$ids) > 1) p <- if (c$model == "additive") c$f else welch(c)
  compare("comparisons", paste("F", ifelse(is.na(row$hitter_id), "all", row$hitter_id)), row$f,
          if (is.null(p)) NA_real_ else p$f, of_size(if (is.null(p)) 0 else p$f))
  if (!is.null(p)) {
    tail <- pf(p$f, p$dof1, p$dof2, lower.tail = FALSE)
    compare("comparisons", paste("p", ifelse(is.na(row$hitter_id), "all", row$hitter_id)), row$p, tail, of_p(tail))
    compare_text("comparisons", "model", row$model, c$model)
  }
}

comparisons <- table_of("comparisons")
ranking <- table_of("ranking")
pairs <- table_of("pairs")
together <- check_ranking("ranking", ranking, pairs, NA)
check_comparison(comparisons[comparisons$scope == "all_hitters", ], together)
ranking_by <- table_of("ranking_by_hitter")
pairs_by <- table_of("pairs_by_hitter")
for (hitter in comparisons$hitter_id[comparisons$scope == "one_hitter"]) {
  one <- check_ranking("ranking_by_hitter", ranking_by[ranking_by$hitter_id == hitter, ],
                       if (is.null(pairs_by)) NULL else pairs_by[pairs_by$hitter_id == hitter, ], hitter)
  check_comparison(comparisons[comparisons$hitter_id %in% hitter, ], one)
}

# ---------------------------------------------------------------- new against worn, drift, trends

conditions <- table_of("conditions")
if (!is.null(conditions)) for (r in seq_len(nrow(conditions))) {
  x <- conditions[r, ]
  if (is.na(x$difference_rpm)) next
  a <- match(x$first_implement_id, together$ids); b <- match(x$second_implement_id, together$ids)
  one <- judged_pairs(together)
  one <- one[one$first == together$ids[min(a, b)] & one$second == together$ids[max(a, b)], ]
  sign <- if (a < b) 1 else -1
  compare("conditions", paste("difference", r), x$difference_rpm, sign * one$difference, of_value(one$se))
  compare("conditions", paste("interval", r), c(x$interval_low_rpm, x$interval_high_rpm),
          sort(sign * c(one$low, one$high)), of_value(one$se))
  compare("conditions", paste("p", r), x$adjusted_p, one$p, of_p(one$p))
}

drift <- table_of("drift")
if (!is.null(drift)) for (r in seq_len(nrow(drift))) {
  mine <- counting & shots$session_id == drift$session_id[r] & shots$hitter_id == drift$hitter_id[r]
  x <- number(shots$hitter_shot[mine]); y <- number(shots$rate_rpm[mine]); g <- shots$cell_id[mine]
  compare("drift", paste("shots", r), drift$shots[r], length(y), 0)
  if (is.na(drift$slope_rpm_per_shot[r])) next
  xc <- x - ave(x, g); yc <- y - ave(y, g)
  dof <- length(y) - length(unique(g)) - 1
  slope <- sum(xc * yc) / sum(xc^2)
  se <- sqrt(sum((yc - slope * xc)^2) / dof / sum(xc^2))
  half <- qt(0.975, dof) * se
  compare("drift", paste("slope", r), drift$slope_rpm_per_shot[r], slope, 0.005 * se)
  compare("drift", paste("interval", r), c(drift$interval_low_rpm_per_shot[r], drift$interval_high_rpm_per_shot[r]),
          slope + c(-1, 1) * half, 0.005 * se)
  p <- 2 * pt(-abs(slope / se), dof)
  compare("drift", paste("p", r), drift$p[r], p, of_p(p))
}

trends <- table_of("trends")
attributes <- table_of("attributes")
correlation <- function(x, y, factor) {
  n <- length(x); r <- max(-1, min(1, cor(x, y)))
  reach <- qnorm(0.975) * sqrt(factor(r) / (n - 3))
  list(r = r, p = if (abs(r) < 1) 2 * pt(-abs(r) * sqrt((n - 2) / (1 - r^2)), n - 2) else 0,
       low = if (n > 3) tanh(atanh(r) - reach) else NA, high = if (n > 3) tanh(atanh(r) + reach) else NA)
}
if (!is.null(trends)) for (r in seq_len(nrow(trends))) {
  these <- attributes[attributes$attribute == trends$attribute[r] & !is.na(attributes$number), ]
  at <- match(these$implement_id, ranking$implement_id)
  x <- number(these$number)[!is.na(at)]; y <- number(ranking$mean_rpm)[at[!is.na(at)]]
  compare("trends", paste("implements", r), trends$implements[r], length(x), 0)
  for (kind in c("pearson", "spearman")) {
    if (is.na(trends[[kind]][r])) next
    c <- if (kind == "pearson") correlation(x, y, function(r) 1)
         else correlation(rank(x), rank(y), function(r) 1 + r^2 / 2)
    compare("trends", paste(kind, r), c(trends[[kind]][r], trends[[paste0(kind, "_low")]][r], trends[[paste0(kind, "_high")]][r]),
            c(c$r, c$low, c$high), 0.0005)
    compare("trends", paste("p of", kind, r), trends[[paste0(kind, "_p")]][r], c$p, of_p(c$p))
  }
}

compare("about", "shots", c(fact("shots_kept"), fact("shots_open"), fact("shots_set_aside")),
        c(sum(shots$standing == "kept"), sum(shots$standing == "open"), sum(shots$standing == "set aside")), 0)

# ---------------------------------------------------------------- what was found

tables <- vapply(largest, function(x) x$table, "")
for (table in unique(tables)) {
  mine <- largest[tables == table]
  worst <- mine[[which.max(vapply(mine, function(x) x$share, 0))]]
  cat(sprintf("%-20s %6d numbers, largest difference %.2g (%s), %.2g %% of what rounding allows\n", table,
              sum(vapply(mine, function(x) x$count, 0)), worst$worst, worst$what, 100 * worst$share))
}
if (length(failures) > 0) {
  cat("\nNot the same, beyond the rounding of the published digits:\n")
  cat(paste0("  ", failures, "\n"), sep = "")
  quit(status = 1)
}
cat("All published numbers follow from the tables.\n")
