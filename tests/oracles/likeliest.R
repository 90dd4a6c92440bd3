# Expected values of the likeliest class: rock types of the Jura samples that gstat carries
# (Goovaerts 1997), each kriged as an indicator by gstat with every sample left out in turn, then
# brought to 0…1 and divided by their sum (Deutsch and Journel 1998, IV.1).
# Run from the project's root: Rscript tests/oracles/likeliest.R
suppressMessages({ library(sp); library(gstat) })
data(jura)
rocks <- 1:5
model <- vgm(0.15, "Exp", 0.4, 0.03)
p <- sapply(rocks, function(rock) {
  d <- data.frame(prediction.dat[, c("Xloc", "Yloc")], i = as.numeric(prediction.dat$Rock == rock))
  coordinates(d) <- ~Xloc + Yloc
  krige.cv(i ~ 1, d, model, nfold = nrow(d), verbose = FALSE, debug.level = 0)$var1.pred
})
p[] <- pmin(pmax(p, 0), 1)
p <- p / rowSums(p)
truth <- as.integer(prediction.dat$Rock)
told <- max.col(p, ties.method = "first")
o <- outer(truth, seq_along(rocks), "==") * 1
share <- colMeans(o)
sorted <- t(apply(p, 1, sort, decreasing = TRUE))
cat(sprintf('{\n  "source": "rock types of jura in gstat (Goovaerts 1997)",\n  "rock": [%s],\n  "right": %.12g,\n  "commonest": %.12g,\n  "score": %.12g,\n  "scoreOfShares": %.12g,\n  "probability": [%s],\n  "doubt": [%s]\n}\n',
  paste(truth, collapse = ", "), mean(told == truth), max(share),
  sqrt(mean(rowSums((p - o)^2)) / 2), sqrt(mean(rowSums((rep(1, nrow(o)) %o% share - o)^2)) / 2),
  paste(sprintf("%.12g", sorted[1:12, 1]), collapse = ", "),
  paste(sprintf("%.12g", (1 - sorted[, 1] + sorted[, 2])[1:12]), collapse = ", ")),
  file = "tests/surfaces/likeliest.json")
