# Makes tests/surfaces/variogram-directions.json with gstat: Rscript tests/oracles/variogram-directions.R
# Variograms in four directions of what an external drift leaves of invented points (a congruential
# generator, as tests/surfaces/scatter.ts has it); of all pairs, and of the pairs on either side of a
# fault at x = 500, gstat's two sides joined by their pairs.
suppressMessages({library(sp); library(gstat)})
state <- 1
draw <- function() {
  high <- state %/% 65536; low <- state %% 65536
  state <<- ((((high * 1664525) %% 65536) * 65536) + low * 1664525 + 1013904223) %% 2^32
  state / 2^32
}
n <- 300
p <- data.frame(x = numeric(n), y = numeric(n), z = numeric(n))
for (i in seq_len(n)) {
  p$x[i] <- draw() * 1000
  p$y[i] <- draw() * 1000
  p$z[i] <- sin(6 * p$x[i] / 1000) + cos(4 * p$y[i] / 1000) + 0.3 * draw()
}
p$h <- 1200 + 0.3 * p$x + 80 * sin(p$y / 150)
p$z <- p$z + 0.02 * p$h
p$rest <- residuals(lm(z ~ h, p))
cutoff <- sqrt(diff(range(p$x))^2 + diff(range(p$y))^2) / 3
directions <- c(0, 45, 90, 135)
of <- function(formula, rows) {
  v <- variogram(formula, ~x + y, p[rows, ], cutoff = cutoff, width = cutoff / 5, alpha = directions,
                 tol.hor = 22.5)
  data.frame(dir = v$dir.hor, lag = ceiling(v$dist / (cutoff / 5)), np = v$np, gamma = v$gamma)
}
# gstat takes the drift off itself here, by least squares.
all <- of(z ~ h, seq_len(n))
west <- of(rest ~ 1, p$x < 500); east <- of(rest ~ 1, p$x >= 500)
both <- merge(west, east, by = c("dir", "lag"))
both <- both[order(both$dir, both$lag), ]
both$np <- both$np.x + both$np.y
both$gamma <- (both$np.x * both$gamma.x + both$np.y * both$gamma.y) / both$np
text <- function(v) paste0("[", paste(sprintf("%.12g", v), collapse = ", "), "]")
part <- function(name, v) sprintf('  "%s": { "azimuth": %s, "pairs": %s, "gamma": %s }', name,
                                  text(v$dir), text(v$np), text(v$gamma))
all <- all[order(all$dir, all$lag), ]
writeLines(c("{", paste(part("drift", all), part("fault", both), sep = ",\n"), "}"),
           "tests/surfaces/variogram-directions.json")
