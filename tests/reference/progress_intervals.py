"""Makes progress_intervals.csv: pip install scipy==1.17.1 statsmodels==0.15.0; python progress_intervals.py"""
import csv

import scipy
import statsmodels
from scipy.stats import beta
from statsmodels.stats.proportion import proportion_confint

with open("progress_intervals.csv", "w", newline="") as file:
    file.write(f"# Posterior mean and 95 % equal-tailed interval of a chance under the Jeffreys prior: mean = scipy.stats.beta.mean,\n")
    file.write(f"# low and high = statsmodels proportion_confint(method='jeffreys'). scipy {scipy.__version__}, statsmodels {statsmodels.__version__}.\n")
    file.write("# Computed values: facts, no licence. statsmodels gives beta quantiles at 0 and at all earned too; the ends 0 and 1 there are\n")
    file.write("# those of Brown, Cai & Das Gupta 2001 (low is 0 where nothing, high is 1 where everything was earned).\n")
    rows = csv.writer(file, lineterminator="\n")
    rows.writerow(["earned", "of", "mean", "low", "high"])
    for of in [1, 2, 3, 4, 5, 7, 10, 14, 20]:
        for earned in sorted({0, 1, of // 3, of // 2, of - 1, of}):
            low, high = proportion_confint(earned, of, alpha=0.05, method="jeffreys")
            low = 0.0 if earned == 0 else low
            high = 1.0 if earned == of else high
            mean = beta.mean(earned + 0.5, of - earned + 0.5)
            rows.writerow([earned, of, f"{mean:.10f}", f"{low:.10f}", f"{high:.10f}"])
