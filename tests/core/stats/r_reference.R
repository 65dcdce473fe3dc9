# Random unbalanced data sets and what base R makes of them, for r_comparison_test.cpp.
#   Rscript r_reference.R FOLDER
# Writes into FOLDER one file of numbers a line for each block: "name value value ...".
folder <- commandArgs(TRUE)[1]
set.seed(20260405)
out <- file(file.path(folder, "r.txt"), "w")
put <- function(name, ...) writeLines(paste(name, paste(sprintf("%.17g", c(...)), collapse = " ")), out)

# Two-way tables with unequal counts, no cell empty; type II by nested models, type III by drop1
# under sum contrasts.
options(contrasts = c("contr.sum", "contr.poly"))
for (i in 1:12) {
  r <- sample(2:6, 1); k <- sample(2:4, 1)
  n <- matrix(sample(1:7, r * k, TRUE), r); n[1, 1] <- 3
  a <- factor(rep(rep(1:r, k), as.vector(n))); b <- factor(rep(rep(1:k, each = r), as.vector(n)))
  y <- 1500 + 40 * as.integer(a) - 25 * as.integer(b) + rnorm(length(a), sd = 60)
  full <- lm(y ~ a * b)
  two <- c(anova(lm(y ~ b), lm(y ~ a + b))[2, "Sum of Sq"], anova(lm(y ~ a), lm(y ~ a + b))[2, "Sum of Sq"],
           anova(lm(y ~ a + b), full)[2, "Sum of Sq"])
  three <- drop1(full, . ~ ., test = "F")
  df <- c(r - 1, k - 1, (r - 1) * (k - 1)); ms <- deviance(full) / df.residual(full)
  put("twoway", as.integer(a) - 1)
  put("columns", as.integer(b) - 1)
  put("values", y)
  put("two", two, pf(two / df / ms, df, df.residual(full), lower.tail = FALSE))
  put("three", three[2:4, "Sum of Sq"], three[2:4, "Pr(>F)"])
  cells <- tapply(y, list(a, b), mean); s2n <- ms / n
  put("means", rowMeans(cells), sqrt(rowSums(s2n)) / k)
  additive <- lm(y ~ a + b)  # with sum contrasts the level mean is constant + effect
  effects <- coef(additive)[2:r]
  put("additive", coef(additive)[1] + c(effects, -sum(effects)))
}

# One-way sets: Welch, classic, Brown-Forsythe; Welch's t of the first pair.
for (i in 1:10) {
  k <- sample(2:8, 1); n <- sample(2:12, k, TRUE) + 1
  g <- factor(rep(1:k, n)); y <- rnorm(length(g), 2000 + 30 * as.integer(g), 20 * as.integer(g))
  classic <- anova(lm(y ~ g)); welch <- oneway.test(y ~ g)
  z <- abs(y - ave(y, g, FUN = median)); bf <- anova(lm(z ~ g))
  t2 <- t.test(y[g == 1], y[g == 2])
  put("groups", as.integer(g) - 1)
  put("values", y)
  put("oneway", classic[1, "F value"], classic[1, "Pr(>F)"], welch$statistic, welch$parameter[2], welch$p.value,
      bf[1, "F value"], bf[1, "Pr(>F)"], t2$parameter, t2$p.value, t2$conf.int)
}

# Covariate, correlation, line.
for (i in 1:8) {
  k <- sample(2:5, 1); n <- sample(3:9, k, TRUE)
  g <- factor(rep(1:k, n)); x <- rnorm(length(g), 30, 4); x[2] <- x[1]  # one tie for the ranks
  y <- 900 + 20 * as.integer(g) + 12 * x + rnorm(length(g), sd = 40)
  fit <- lm(y ~ g + x); d <- drop1(fit, . ~ ., test = "F")
  same <- anova(fit, lm(y ~ g * x))
  at <- data.frame(g = factor(1:k), x = mean(x)); p <- predict(fit, at, se.fit = TRUE)
  put("groups", as.integer(g) - 1)
  put("covariate", x)
  put("values", y)
  put("ancova", coef(fit)["x"], confint(fit)["x", ], d["g", "F value"], d["g", "Pr(>F)"], same[2, "F"], same[2, "Pr(>F)"])
  put("adjusted", p$fit, p$se.fit)
  pe <- cor.test(x, y); sp <- cor.test(x, y, method = "spearman", exact = FALSE)
  put("correlation", pe$estimate, pe$p.value, pe$conf.int, sp$estimate)
  line <- lm(y ~ x); s <- summary(line)$coefficients
  put("line", s[1, 1:2], s[2, 1:2], s[2, 4], confint(line)[2, ])
  hl <- suppressWarnings(outer(y, y, "+") / 2); put("hodges", median(hl[upper.tri(hl, TRUE)]))
}

# Random effects: root of the restricted score, written with projection matrices, and its weighted line.
for (i in 1:8) {
  n <- sample(4:15, 1); u <- runif(n, 5, 40); y <- rnorm(n, 1800, sqrt(u^2 + 50^2))
  P <- function(t) { w <- 1 / (u^2 + t); diag(w) - outer(w, w) / sum(w) }
  score <- function(t) { p <- P(t); c(t(y) %*% p %*% p %*% y) - sum(diag(p)) }
  t <- if (score(0) <= 0) 0 else uniroot(score, c(0, 1e6), tol = 1e-11, maxiter = 1e5)$root
  fit <- lm(y ~ 1, weights = 1 / (u^2 + t))
  put("measured", y)
  put("uncertainties", u)
  put("reml", t, coef(fit), confint(fit))
}

# Studentized range where R is exact (many degrees of freedom, few groups) and its t and F relatives.
grid <- expand.grid(q = c(0.5, 2, 3.5, 5), k = c(2, 3, 5, 8, 20, 50), v = c(20, 60, 200, 1000, Inf))
put("ptukey", rbind(grid$q, grid$k, grid$v, mapply(ptukey, grid$q, grid$k, grid$v)))


for (i in 1:10) {
  n <- sample(3:40, 1); d <- runif(1, 0.3, 2); s <- runif(1, 0.5, 1.5); alpha <- sample(c(0.01, 0.05), 1)
  put("power", n, d, s, alpha, power.t.test(n, d, s, alpha, strict = TRUE)$power)
}

# Variances moderated by what all say (Smyth 2004, section 6): R's digamma and trigamma, and a root by bisection.
for (i in 1:8) {
  n <- sample(6:30, 1); d <- sample(2:19, n, TRUE)
  truth <- if (i %% 2) 60^2 else 60^2 * 6 / rchisq(n, 6)
  v <- truth * rchisq(n, d) / d
  e <- log(v) - digamma(d / 2) + log(d / 2)
  over <- var(e) - mean(trigamma(d / 2))
  if (over > 0) {
    half <- uniroot(function(y) log(trigamma(y)) - log(over), c(1e-3, 1e6), tol = 1e-13, maxiter = 1e5)$root
    s <- exp(mean(e) + digamma(half) - log(half))
    moderated <- (2 * half * s + d * v) / (2 * half + d); dof <- pmin(2 * half + d, sum(d))
  } else {
    moderated <- rep(exp(mean(e)), n); dof <- rep(sum(d), n)
  }
  put("variances", v)
  put("own", d)
  put("moderated", moderated, dof)
}

# Deleted residuals of an additive table with cells missing, by R's lm, its hat matrix and Satterthwaite's rule.
for (i in 1:8) {
  r <- sample(4:9, 1); k <- sample(3:4, 1)
  table <- expand.grid(row = 1:r, column = 1:k)
  table <- table[-sample(nrow(table), 1), ]
  v <- runif(nrow(table), 10, 60)^2; d <- sample(3:19, nrow(table), TRUE)
  y <- 1500 + 40 * table$row - 25 * table$column + rnorm(nrow(table), sd = sqrt(v))
  fit <- lm(y ~ factor(row) + factor(column), table, weights = 1 / v)
  x <- model.matrix(fit); hat <- x %*% solve(t(x) %*% (x / v)) %*% t(x / v); left <- 1 - diag(hat)
  shares <- (diag(nrow(hat)) - hat) / left
  put("residuals", y)
  put("row", table$row - 1)
  put("column", table$column - 1)
  put("variance", v)
  put("degrees", d)
  put("deleted", residuals(fit) / left, sqrt(v / left), (v / left)^2 / c(shares^4 %*% (v^2 / d)))
}
close(out)
