# Makes survival.json with R and its package survival (Debian r-cran-survival):
#   Rscript tests/outside/data/survival.R > tests/outside/data/survival.json
#   npx oxfmt tests/outside/data/survival.json
# The tests read the JSON and need no R.
suppressMessages(library(survival))

number <- function(x) ifelse(is.na(x) | is.infinite(x), "null", sprintf("%.10g", x))
vector_ <- function(x) paste0("[", paste(number(x), collapse = ","), "]")
text <- function(x) paste0("\"", x, "\"")
object <- function(...) {
  parts <- c(...)
  paste0("{", paste0(text(names(parts)), ":", parts, collapse = ","), "}")
}

km <- function(time, event) {
  fit <- survfit(Surv(time, event) ~ 1, conf.type = "log-log")
  q <- quantile(fit, 0.5)
  object(
    time = vector_(fit$time), atRisk = vector_(fit$n.risk), events = vector_(fit$n.event),
    censored = vector_(fit$n.censor), survival = vector_(fit$surv),
    se = vector_(ifelse(fit$surv > 0, fit$std.err * fit$surv, NA)),
    lower = vector_(fit$lower), upper = vector_(fit$upper),
    median = vector_(c(q$quantile, q$lower, q$upper))
  )
}

rates <- function(time, event, group) {
  # One constant hazard for each group: Poisson regression with the exposure as offset.
  f <- factor(group)
  fit <- glm(event ~ f + offset(log(time)), family = poisson(),
             control = glm.control(epsilon = 1e-14, maxit = 100))
  s <- summary(fit)$coefficients
  object(
    log = vector_(s[, 1]), se = vector_(s[, 2]), p = vector_(s[, 4]),
    exact = paste0("[", paste(sapply(levels(f), function(g) {
      t <- poisson.test(sum(event[group == g]), sum(time[group == g]))
      vector_(c(t$estimate, t$conf.int))
    }), collapse = ","), "]")
  )
}

set <- function(name, source, time, event, group) {
  d <- survdiff(Surv(time, event) ~ group)
  df <- sum(d$exp > 0) - 1
  k <- sort(unique(group))
  body <- c(
    name = text(name), source = text(source),
    time = vector_(time), event = vector_(as.numeric(event)), group = vector_(group),
    curves = paste0("[", paste(sapply(k, function(g) km(time[group == g], event[group == g])),
                               collapse = ",\n"), "]"),
    logRank = object(
      observed = vector_(d$obs), expected = vector_(d$exp), chiSquare = number(d$chisq),
      df = number(df), p = number(pchisq(d$chisq, df, lower.tail = FALSE))
    )
  )
  if (all(time > 0) && all(tapply(event, group, sum) > 0))
    body <- c(body, rates = rates(time, event, group))
  object(body)
}

set.seed(20260105)
rows <- function(n, groups, hazards, ends, digits) {
  g <- sample(groups, n, TRUE)
  t <- rexp(n, hazards[g])
  c <- runif(n, 0, ends)
  list(time = pmax(round(pmin(t, c), digits), 10^-digits), event = t <= c, group = g)
}
ties <- rows(300, 1:3, c(0.1, 0.15, 0.3), 12, 0)
many <- rows(1000, 1:6, c(0.01, 0.011, 0.012, 0.02, 0.04, 0.005), 60, 2)
rare <- rows(400, 1:2, c(0.004, 0.012), 5, 3)
even <- list(time = c(1, 2, 3, 4, 1, 2, 5, 5, 3, 3, 4, 9), event = c(1, 1, 1, 1, 1, 1, 0, 0, 1, 1, 1, 1),
             group = c(1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3))
# Freireich et al. 1963: weeks of remission on 6-mercaptopurine (group 1) and placebo (group 2).
mp <- c(6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35)
mpe <- c(1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0)
pl <- c(1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23)
ok <- complete.cases(lung[, c("time", "status", "sex")])

sets <- c(
  set("remission", "Freireich EJ et al. Blood 1963;21:699-716, as typed from textbooks",
      c(mp, pl), c(mpe, rep(1, 21)), rep(1:2, each = 21)),
  set("aml", "maintenance in acute myelogenous leukaemia, data set aml of the package",
      aml$time, aml$status, as.numeric(aml$x)),
  set("lung", "advanced lung cancer by sex, data set lung of the package",
      lung$time[ok], as.numeric(lung$status[ok] == 2), lung$sex[ok]),
  set("cells", "lung cancer by cell type, data set veteran of the package",
      veteran$time, veteran$status, as.numeric(veteran$celltype)),
  set("ovarian", "ovarian cancer by treatment, data set ovarian of the package",
      ovarian$futime, ovarian$fustat, ovarian$rx),
  set("ties", "generated: three groups, whole numbers", ties$time, ties$event, ties$group),
  set("many", "generated: six groups", many$time, many$event, many$group),
  set("rare", "generated: few events, much censoring", rare$time, rare$event, rare$group),
  set("even", "made: curves that rest at one half, and one that falls to nought",
      even$time, even$event, even$group)
)
points <- expand.grid(df = c(1, 2, 3, 7, 20), x = c(0.001, 0.1, 1, 3.84, 10, 30, 80))
chi <- paste0("[", paste(mapply(function(df, x)
  vector_(c(x, df, pchisq(x, df, lower.tail = FALSE))), points$df, points$x), collapse = ","), "]")

cat("{\"made\":", text(paste("R", getRversion(), "survival", packageVersion("survival"))),
    ",\n\"chiSquare\":", chi, ",\n\"sets\":[\n", paste(sets, collapse = ",\n"), "\n]}\n", sep = "")
