# Expected values of kriging logarithms, normal scores and ranks, brought back to the value's unit.
# Run from the project's root: Rscript tests/oracles/transforms.R
#
# Data: zinc of the Meuse samples that sp carries (Rikken and Van Rijn 1993). gstat kriges the
# transformed values; the way back is worked here from the published formulas alone:
# logarithms by the full system with Lagrange's multiplier (Journel 1980; Cressie 1993, 3.2.2),
# scores and ranks by R's own integration of the straight-line quantile function. With a trend, a
# drift (the elevation that the samples carry) or both, the multipliers are those of the full system
# (Cressie 2006).
suppressMessages({ library(sp); library(gstat) })
data(meuse)
at <- data.frame(x = c(179000, 179500, 180000, 180300, 178800), y = c(330500, 331200, 332000, 333100, 330200), elev = c(8, 7.5, 9, 7, 8.5))
n <- nrow(meuse)
rank_of <- rank(meuse$zinc, ties.method = "average")
transforms <- list(
  log = list(y = log(meuse$zinc), model = vgm(0.5906, "Sph", 897, 0.0507)),
  `normal-score` = list(y = NULL, model = vgm(0.9, "Sph", 900, 0.1)),
  rank = list(y = (rank_of - 0.5) / n, model = vgm(0.07, "Sph", 900, 0.013))
)
# Equal values share the score of their middle, as their weight of the distribution has it.
transforms$`normal-score`$y <- qnorm((rank_of - 0.5) / n)

covariance <- function(model, d) {
  nugget <- model$psill[1]; sill <- model$psill[2]; range <- model$range[2]
  h <- pmin(d / range, 1)
  ifelse(d == 0, nugget, 0) + sill * (1 - 1.5 * h + 0.5 * h^3)
}
distances <- function(a, b) sqrt(outer(a$x, b$x, "-")^2 + outer(a$y, b$y, "-")^2)

# The functions that a mean is made of, at places; moved and scaled, which changes no result.
functions_of <- function(at, mean) {
  u <- (at$x - 180000) / 1000; v <- (at$y - 331500) / 1000; h <- at$elev / 10
  switch(mean, none = cbind(rep(1, nrow(at))), plane = cbind(1, u, v), drift = cbind(1, h),
         both = cbind(1, u, v, h))
}

# Mean of the value itself at targets from stations, with an unknown mean of the logarithms.
lognormal <- function(stations, y, targets, model, mean = "none") {
  C <- covariance(model, distances(stations, stations))
  k <- nrow(stations)
  F <- functions_of(stations, mean); p <- ncol(F)
  A <- rbind(cbind(C, F), cbind(t(F), matrix(0, p, p)))
  t(sapply(seq_len(nrow(targets)), function(i) {
    c0 <- covariance(model, distances(stations, targets[i, ])[, 1])
    f0 <- functions_of(targets[i, ], mean)[1, ]
    solution <- solve(A, c(c0, f0))
    lambda <- solution[1:k]; nu <- sum(solution[k + 1:p] * f0)
    s2 <- sum(model$psill) - sum(lambda * c0) - nu
    z <- exp(sum(lambda * y) + s2 / 2 + nu)
    c(z, z^2 * (exp(s2) - 1))
  }))
}

# Mean and variance of the value whose score is normal, straight lines between the stations' own.
restored <- function(y, values, mean, variance) {
  keep <- !duplicated(y); o <- order(y[keep])
  back <- approxfun(y[keep][o], values[keep][o], rule = 2)
  s <- sqrt(variance)
  if (s < 1e-9) return(c(back(mean), 0))
  # In pieces between knots, so that every kink is an end of an interval.
  ends <- sort(unique(c(mean - 9 * s, mean + 9 * s, y[y > mean - 9 * s & y < mean + 9 * s])))
  moment <- function(f) sum(sapply(seq_len(length(ends) - 1), function(i)
    integrate(function(v) f(back(v)) * dnorm(v, mean, s), ends[i], ends[i + 1], rel.tol = 1e-10)$value))
  m <- moment(identity)
  c(m, moment(function(z) (z - m)^2))
}

rows <- character()
formulas <- list(none = t ~ 1, plane = t ~ x + y, drift = t ~ elev, both = t ~ x + y + elev)
for (mean in names(formulas)) for (kind in setdiff(names(transforms), if (mean == "none") NULL else "rank")) {
  y <- transforms[[kind]]$y; model <- transforms[[kind]]$model
  formula <- formulas[[mean]]
  data <- data.frame(meuse[, c("x", "y", "elev")], t = y)
  kriged <- krige(formula, ~x + y, data, at, model, debug.level = 0)
  out <- if (kind == "log") lognormal(meuse, y, at, model, mean)
         else t(mapply(function(m, v) restored(y, meuse$zinc, m, v), kriged$var1.pred, kriged$var1.var))
  left <- t(sapply(c(1, 40, 155), function(i) {
    if (kind == "log") return(lognormal(meuse[-i, ], y[-i], meuse[i, ], model, mean))
    one <- krige(formula, ~x + y, data[-i, ], data[i, c("x", "y", "elev")], model, debug.level = 0)
    restored(y, meuse$zinc, one$var1.pred, one$var1.var)
  }))
  cells <- function(v) paste0("[", paste(sprintf("%.12g", v), collapse = ", "), "]")
  rows <- c(rows, sprintf(
    '  "%s": {\n    "transformed": %s,\n    "estimate": %s,\n    "variance": %s,\n    "leftOut": %s\n  }',
    if (mean == "none") kind else paste(kind, mean), cells(kriged$var1.pred), cells(out[, 1]), cells(out[, 2]), cells(left[, 1])))
}
cat("{\n", paste(rows, collapse = ",\n"), "\n}\n", sep = "", file = "tests/surfaces/transforms.json")
