# Open data with values held back, and gstat's ordinary kriging of them.
#
#   Rscript held-back.R FOLDER
#
# Writes NAME-observed.csv (x, y, v) and NAME-held.csv (x, y, v and p, the prediction) into the
# folder and prints NAME,RMSE of ordinary kriging with the spherical model that fit.variogram finds
# on gstat's default lags.
# Data: Jura (Goovaerts 1997) and Walker Lake (Isaaks and Srivastava 1989), both in package gstat.
suppressMessages({library(sp); library(gstat)})
folder <- commandArgs(TRUE)[1]

# Four winding walks of 90 steps of 5 m: each turns by up to 34 degrees a step and back at the shore.
winding <- function(lake, seed) {
  set.seed(seed)
  cells <- integer(0)
  for (walk in 1:4) {
    x <- runif(1, 1, 260); y <- runif(1, 1, 300); towards <- runif(1, 0, 2 * pi)
    for (step in 1:90) {
      towards <- towards + runif(1, -0.6, 0.6)
      east <- x + 5 * cos(towards); north <- y + 5 * sin(towards)
      if (east < 1 || east > 260 || north < 1 || north > 300) {
        towards <- towards + 0.7 * pi
        east <- x + 5 * cos(towards); north <- y + 5 * sin(towards)
      }
      x <- min(260, max(1, east)); y <- min(300, max(1, north))
      cells <- c(cells, which(lake$X == round(x) & lake$Y == round(y)))
    }
  }
  unique(cells)
}

compare <- function(name, observed, held) {
  observed <- observed[complete.cases(observed), ]
  write.csv(observed, file.path(folder, paste0(name, "-observed.csv")), row.names = FALSE)
  told <- held
  coordinates(observed) <- ~x+y
  coordinates(held) <- ~x+y
  model <- suppressWarnings(fit.variogram(variogram(v ~ 1, observed), vgm("Sph")))
  near <- if (nrow(held) > 1000) 64 else Inf
  kriged <- suppressWarnings(krige(v ~ 1, observed, held, model, nmax = near, debug.level = 0))
  told$p <- kriged$var1.pred
  write.csv(told, file.path(folder, paste0(name, "-held.csv")), row.names = FALSE)
  cat(sprintf("%s,%.6f\n", name, sqrt(mean((kriged$var1.pred - held$v)^2))))
}

data(jura)
for (metal in c("Cd", "Co", "Cr", "Cu", "Ni", "Pb", "Zn")) {
  taken <- function(d) data.frame(x = d$Xloc, y = d$Yloc, v = d[[metal]])
  compare(paste("Jura", metal), taken(prediction.dat), taken(validation.dat))
}
data(walker)
lake <- as.data.frame(walker.exh)
samples <- as.data.frame(walker)
for (field in c("V", "U")) {
  every <- data.frame(x = lake$X, y = lake$Y, v = lake[[field]])
  compare(paste("Walker Lake", field),
          data.frame(x = samples$X, y = samples$Y, v = samples[[field]]), every)
  for (seed in 1:5) compare(paste("Walker Lake along tracks", seed, field), every[winding(lake, seed), ], every)
}
