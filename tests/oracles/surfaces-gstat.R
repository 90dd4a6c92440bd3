# Makes tests/surfaces/gstat-fixtures.json with gstat: Rscript tests/oracles/surfaces-gstat.R
# Invented points (a congruential generator, as tests/surfaces/scatter.ts has it); kriging with
# trends, with each point's own measurement error, nested and Matérn models, at six places.
suppressMessages({library(sp); library(gstat)})
state <- 1
draw <- function() {
  # 32-bit arithmetic in doubles: split the product so that it stays exact.
  high <- state %/% 65536; low <- state %% 65536
  state <<- ((((high * 1664525) %% 65536) * 65536) + low * 1664525 + 1013904223) %% 2^32
  state / 2^32
}
n <- 60
side <- 1000
p <- data.frame(x = numeric(n), y = numeric(n), z = numeric(n))
for (i in seq_len(n)) {
  p$x[i] <- draw() * side
  p$y[i] <- draw() * side
  p$z[i] <- sin(6 * p$x[i] / side) + cos(4 * p$y[i] / side) + 0.3 * draw()
}
p$error <- 0.05 + 0.3 * ((seq_len(n) - 1) %% 5) / 4
targets <- data.frame(x = c(100, 333, 512, 760, 905, 40), y = c(120, 700, 505, 260, 880, 960))
spatial <- p; coordinates(spatial) <- ~x + y
at <- targets; coordinates(at) <- ~x + y
model <- vgm(0.8, "Sph", 450, nugget = 0.05)
run <- function(formula, model, ...) {
  k <- krige(formula, spatial, at, model, debug.level = 0, ...)
  list(estimate = k$var1.pred, variance = k$var1.var)
}
half <- function(side) {
  k <- krige(z ~ 1, spatial[side, ], at, model, debug.level = 0)
  list(estimate = k$var1.pred, variance = k$var1.var)
}
# The chance that a normal score exceeds 0.5, at the nodes of a grid, by simple kriging.
spatial$score <- qnorm((rank(p$z) - 0.5) / n)
nodes <- data.frame(x = c(125, 325, 525, 775, 925, 25), y = c(125, 675, 475, 275, 875, 975))
coordinates(nodes) <- ~x + y
chance <- function() {
  k <- krige(score ~ 1, spatial, nodes, vgm(0.9, "Sph", 450, nugget = 0.1), beta = 0,
             debug.level = 0)
  list(estimate = 1 - pnorm((0.5 - k$var1.pred) / sqrt(k$var1.var)), variance = k$var1.var)
}
# The chance of a score above 0 at nodes beside a fault at x = 500 that lifts all to the east, from
# the stations of one side.
spatial$lifted <- qnorm((rank(p$z + 2 * (p$x >= 500)) - 0.5) / n)
flank <- data.frame(x = c(475, 475, 475, 525, 525, 525), y = c(225, 525, 775, 225, 525, 775))
coordinates(flank) <- ~x + y
beside <- function(rows) {
  k <- krige(lifted ~ 1, spatial[rows, ], flank, vgm(0.9, "Sph", 450, nugget = 0.1), beta = 0,
             debug.level = 0)
  list(estimate = 1 - pnorm(-k$var1.pred / sqrt(k$var1.var)), variance = k$var1.var)
}
# An invented height as external drift.
height <- function(x, y) 1200 + 0.3 * x + 80 * sin(y / 150)
spatial$h <- height(p$x, p$y)
at$h <- height(targets$x, targets$y)
nested <- vgm(0.5, "Exp", 100, add.to = vgm(0.4, "Gau", 300, nugget = 0.02))
out <- list(
  ordinary = run(z ~ 1, model),
  linear = run(z ~ x + y, model),
  quadratic = run(z ~ x + y + I(x^2) + I(x * y) + I(y^2), model),
  drift = run(z ~ h, model),
  drift24 = run(z ~ h, model, nmax = 24),
  drift_leave_one_out = {
    cv <- krige.cv(z ~ h, spatial, model, verbose = FALSE, debug.level = 0)
    list(estimate = cv$var1.pred, variance = cv$var1.var)
  },
  linear24 = run(z ~ x + y, model, nmax = 24),
  errors = run(z ~ 1, model, weights = 1 / p$error^2),
  nested = run(z ~ 1, nested),
  matern = run(z ~ 1, vgm(0.8, "Mat", 120, nugget = 0.05, kappa = 0.8)),
  # In two dimensions gstat's omax counts by quadrants.
  quadrants = run(z ~ 1, model, omax = 3, maxdist = 5000),
  west = half(p$x < 500),
  east = half(p$x >= 500),
  chance = chance(),
  chance_west = beside(p$x < 500),
  chance_east = beside(p$x >= 500),
  linear_leave_one_out = {
    cv <- krige.cv(z ~ x + y, spatial, model, verbose = FALSE, debug.level = 0)
    list(estimate = cv$var1.pred, variance = cv$var1.var)
  }
)
format_numbers <- function(v) paste0("[", paste(sprintf("%.12g", v), collapse = ", "), "]")
parts <- sapply(names(out), function(name)
  sprintf('  "%s": { "estimate": %s, "variance": %s }', name,
          format_numbers(out[[name]]$estimate), format_numbers(out[[name]]$variance)))
writeLines(c("{", paste(parts, collapse = ",\n"), "}"), "tests/surfaces/gstat-fixtures.json")
