# Times gstat for tests/bench/surfaces.ts: Rscript surfaces-gstat.R POINTS.csv JOB SIDE
# POINTS.csv has x, y, z in a square of 10 km. Prints seconds.
suppressMessages({library(sp); library(gstat)})
arguments <- commandArgs(trailingOnly = TRUE)
points <- read.csv(arguments[1])
coordinates(points) <- ~x + y
model <- vgm(psill = 1, model = "Sph", range = 3000, nugget = 0.05)
side <- as.integer(arguments[3])
if (arguments[2] == "krige") {
  cell <- 10000 / side
  nodes <- expand.grid(x = (seq_len(side) - 0.5) * cell, y = (seq_len(side) - 0.5) * cell)
  coordinates(nodes) <- ~x + y
  took <- system.time(krige(z ~ 1, points, nodes, model, nmax = 24, debug.level = 0))
} else if (arguments[2] == "leave-one-out") {
  took <- system.time(krige.cv(z ~ 1, points, model, nmax = 24, verbose = FALSE))
} else stop("unknown job")
cat(took[["elapsed"]], "\n")
