# Expected values of kriging normal scores whose table is declustered.
# Run from the project's root: Rscript tests/oracles/declustered-scores.R
#
# Data: V of the 470 Walker Lake samples (Isaaks and Srivastava 1989), which gstat carries too as
# `walker`. Cells are worked out here anew from the rule (Journel 1983): 21 sides from half to six
# times the mean spacing, eight shifts, the mean that lies farthest to the side to which they lead on
# average. gstat kriges the scores; the way back is R's integration of the straight-line quantiles.
suppressMessages({ library(sp); library(gstat) })
data <- read.csv("../shared/spatial/walker.csv")
x <- data$X; y <- data$Y; v <- data$V; n <- length(v)

hull <- chull(x, y)
area <- abs(sum(x[hull] * c(y[hull][-1], y[hull][1]) - c(x[hull][-1], x[hull][1]) * y[hull])) / 2
spacing <- sqrt(area / n)
weights_of <- function(cell) {
  w <- 0
  for (s in 0:7) {
    key <- paste(floor((x - min(x) + cell * s / 8) / cell), floor((y - min(y) + cell * ((3 * s) %% 8) / 8) / cell))
    occupants <- table(key)
    w <- w + n / (length(occupants) * 8) / as.numeric(occupants[key])
  }
  w
}
cells <- 0.5 * 12^((0:20) / 20) * spacing
tried <- lapply(cells, weights_of)
means <- sapply(tried, function(w) weighted.mean(v, w))
best <- if (sum(means - mean(v)) <= 0) which.min(means) else which.max(means)
w <- tried[[best]]

# A value's score: the normal quantile of the middle of its weight.
values <- sort(unique(v))
each <- sapply(values, function(value) sum(w[v == value]))
knots <- qnorm((cumsum(each) - each / 2) / sum(each))
scores <- knots[match(v, values)]

at <- data.frame(x = c(40, 100, 130, 200, 71), y = c(60, 250, 130, 40, 29))
model <- vgm(0.8, "Sph", 40, 0.2)
kriged <- krige(t ~ 1, ~x + y, data.frame(x = x, y = y, t = scores), at, model, nmax = 24, debug.level = 0)
back <- approxfun(knots, values, rule = 2)
restored <- mapply(function(m, variance) {
  s <- sqrt(variance)
  if (s < 1e-9) return(back(m))
  ends <- sort(unique(c(m - 9 * s, m + 9 * s, knots[knots > m - 9 * s & knots < m + 9 * s])))
  sum(sapply(seq_len(length(ends) - 1), function(i)
    integrate(function(q) back(q) * dnorm(q, m, s), ends[i], ends[i + 1], rel.tol = 1e-10)$value))
}, kriged$var1.pred, kriged$var1.var)
text <- function(v) paste0("[", paste(sprintf("%.12g", v), collapse = ", "), "]")
cat(sprintf('{\n  "cell": %.12g,\n  "mean": %.12g,\n  "scores": %s,\n  "transformed": %s,\n  "estimate": %s\n}\n',
  cells[best], means[best], text(scores[c(1, 100, 200, 300, 470)]), text(kriged$var1.pred), text(restored)),
  file = "tests/surfaces/declustered-scores.json")
