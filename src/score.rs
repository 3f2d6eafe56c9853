//! How good stated probabilities were, once it is known what happened.

/// What was said before, and what came of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forecast {
    /// The probability that was stated, from 0 to 1.
    pub said: f64,
    /// Whether it happened.
    pub happened: bool,
}

/// The Brier score taken apart (Murphy 1973): `reliability - resolution + uncertainty + within` is the score.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Murphy {
    /// How far what was said lies from what happened, bin by bin: 0 is best.
    pub reliability: f64,
    /// How far what happened differs between bins: the more the better.
    pub resolution: f64,
    /// The score of always saying the share that happens.
    pub uncertainty: f64,
    /// What the forecasts of a bin differ by among themselves: 0 where each bin holds a single value, small in narrow
    /// bins (Stephenson, Coelho & Jolliffe 2008). Negative where higher forecasts in a bin came true more often.
    pub within: f64,
}

/// One bin of a reliability table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// The least probability of the bin.
    pub from: f64,
    /// Where the next bin begins; 1 belongs to the last.
    pub to: f64,
    /// How many forecasts fall into it, at least one.
    pub count: usize,
    /// What they said on average.
    pub said: f64,
    /// How many of them came true.
    pub hits: usize,
    /// The interval of 95 % for the share that comes true ([`wilson`]).
    pub interval: (f64, f64),
}

impl Row {
    /// The share that came true.
    #[must_use]
    pub fn happened(&self) -> f64 {
        self.hits as f64 / self.count as f64
    }
}

/// The mean squared distance between what was said and what happened (1 or 0): 0 is best, always saying a half gives
/// 0.25. `None` without forecasts.
#[must_use]
pub fn brier(forecasts: &[Forecast]) -> Option<f64> {
    mean(forecasts, |forecast| (forecast.said - outcome(*forecast)).powi(2))
}

/// The mean of -ln of the probability that was given to what happened, nats: 0 is best, always saying a half gives
/// 0.693. Infinite where something happened that was said to be impossible. `None` without forecasts.
#[must_use]
pub fn log_score(forecasts: &[Forecast]) -> Option<f64> {
    mean(forecasts, |forecast| -(if forecast.happened { forecast.said } else { 1.0 - forecast.said }).ln())
}

/// The [`brier`] score taken apart over so many bins of equal width. `None` without forecasts.
#[must_use]
pub fn murphy(forecasts: &[Forecast], bins: usize) -> Option<Murphy> {
    let score = brier(forecasts)?;
    let base = mean(forecasts, |forecast| outcome(*forecast))?;
    let rows = reliability(forecasts, bins);
    let weighed = |value: fn(&Row, f64) -> f64| {
        rows.iter().map(|row| row.count as f64 * value(row, base)).sum::<f64>() / forecasts.len() as f64
    };
    let reliability = weighed(|row, _| (row.said - row.happened()).powi(2));
    let resolution = weighed(|row, base| (row.happened() - base).powi(2));
    let uncertainty = base * (1.0 - base);
    Some(Murphy { reliability, resolution, uncertainty, within: score - (reliability - resolution + uncertainty) })
}

/// What was said against what happened, over so many bins of equal width (at least one), the lowest first. Bins that no
/// forecast falls into are left out.
#[must_use]
pub fn reliability(forecasts: &[Forecast], bins: usize) -> Vec<Row> {
    let bins = bins.max(1);
    let mut sums = vec![(0, 0.0, 0); bins];
    for forecast in forecasts {
        let (count, said, hits) = &mut sums[((forecast.said * bins as f64) as usize).min(bins - 1)];
        *count += 1;
        *said += forecast.said;
        *hits += usize::from(forecast.happened);
    }
    let edge = |bin: usize| bin as f64 / bins as f64;
    let row = |(bin, (count, said, hits)): (usize, (usize, f64, usize))| Row {
        from: edge(bin),
        to: edge(bin + 1),
        count,
        said: said / count as f64,
        hits,
        interval: wilson(hits, count),
    };
    sums.into_iter().enumerate().filter(|(_, (count, ..))| *count > 0).map(row).collect()
}

/// The interval of 95 % for a probability after so many hits of so many independent trials (Wilson 1927, without a
/// correction for continuity). All from 0 to 1 without trials.
#[must_use]
pub fn wilson(hits: usize, of: usize) -> (f64, f64) {
    if of == 0 {
        return (0.0, 1.0);
    }
    let (hits, of) = (hits as f64, of as f64);
    let squared = NORMAL_97_5.powi(2);
    let middle = (hits + squared / 2.0) / (of + squared);
    let half = NORMAL_97_5 * (hits * (of - hits) / of + squared / 4.0).max(0.0).sqrt() / (of + squared);
    ((middle - half).max(0.0), (middle + half).min(1.0))
}

/// The 97.5 % point of the standard normal (NIST/SEMATECH e-Handbook, table of the normal: 1.96).
const NORMAL_97_5: f64 = 1.959_963_984_540_054;

fn outcome(forecast: Forecast) -> f64 {
    if forecast.happened { 1.0 } else { 0.0 }
}

fn mean(forecasts: &[Forecast], value: impl Fn(&Forecast) -> f64) -> Option<f64> {
    (!forecasts.is_empty()).then(|| forecasts.iter().map(value).sum::<f64>() / forecasts.len() as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn forecasts(of: &[(f64, usize, usize)]) -> Vec<Forecast> {
        let one =
            |&(said, hits, of): &(f64, usize, usize)| (0..of).map(move |at| Forecast { said, happened: at < hits });
        of.iter().flat_map(one).collect()
    }

    // Newcombe 1998, "Two-sided confidence intervals for the single proportion", table I, method 3 (memory).
    #[rstest]
    #[case(81, 263, 0.2553, 0.3662)]
    #[case(15, 148, 0.0624, 0.1605)]
    #[case(0, 20, 0.0, 0.1611)]
    #[case(1, 29, 0.0061, 0.1718)]
    fn intervals_are_those_of_newcombe(#[case] hits: usize, #[case] of: usize, #[case] low: f64, #[case] high: f64) {
        let found = wilson(hits, of);
        assert!((found.0 - low).abs() < 5e-5 && (found.1 - high).abs() < 5e-5, "{found:?}");
        let turned = wilson(of - hits, of);
        assert!((turned.0 - (1.0 - found.1)).abs() < 1e-12 && (turned.1 - (1.0 - found.0)).abs() < 1e-12);
    }

    #[test]
    fn the_brier_score_of_a_known_example() {
        // The example in scikit-learn's documentation of its Brier score (memory).
        let known = forecasts(&[(0.1, 0, 1), (0.9, 1, 1), (0.8, 1, 1), (0.3, 0, 1)]);
        assert!((brier(&known).unwrap() - 0.0375).abs() < 1e-12);
    }

    #[test]
    fn a_brier_score_is_taken_apart() {
        // By hand: five forecasts of 0.2 with one hit, five of 0.6 with three: 0.20 = 0 - 0.04 + 0.24.
        let parts = murphy(&forecasts(&[(0.2, 1, 5), (0.6, 3, 5)]), 10).unwrap();
        let found = [parts.reliability, parts.resolution, parts.uncertainty, parts.within];
        assert!(found.iter().zip([0.0, 0.04, 0.24, 0.0]).all(|(a, b)| (a - b).abs() < 1e-12), "{found:?}");
    }

    #[test]
    fn what_differs_within_a_bin_is_told() {
        // By hand, all in one bin: score (0.01 + 0.01)/2; said 0.5 of 0.5, so 0.01 = 0 - 0 + 0.25 - 0.24.
        let parts = murphy(&forecasts(&[(0.1, 0, 1), (0.9, 1, 1)]), 1).unwrap();
        assert!((parts.within + 0.24).abs() < 1e-12 && parts.reliability.abs() < 1e-12, "{parts:?}");
    }

    #[test]
    fn the_log_score_is_in_nats() {
        assert!((log_score(&forecasts(&[(0.5, 1, 2)])).unwrap() - 2f64.ln()).abs() < 1e-12);
        // By hand: -(ln 0.8 + ln 0.7)/2.
        assert!((log_score(&forecasts(&[(0.8, 1, 1), (0.3, 0, 1)])).unwrap() - 0.289_909_247).abs() < 1e-9);
        assert_eq!(log_score(&forecasts(&[(0.0, 1, 1)])), Some(f64::INFINITY));
    }

    #[test]
    fn a_table_has_the_bins_that_were_used() {
        let rows = reliability(&forecasts(&[(0.0, 0, 3), (0.25, 1, 4), (0.3, 1, 1), (1.0, 2, 2)]), 4);
        let found: Vec<_> = rows.iter().map(|row| (row.from, row.to, row.count, row.hits)).collect();
        assert_eq!(found, [(0.0, 0.25, 3, 0), (0.25, 0.5, 5, 2), (0.75, 1.0, 2, 2)]);
        assert!((rows[1].said - 0.26).abs() < 1e-12 && (rows[1].happened() - 0.4).abs() < 1e-12);
        assert_eq!(rows[1].interval, wilson(2, 5));
    }

    #[test]
    fn nothing_said_has_no_score() {
        assert_eq!((brier(&[]), log_score(&[]), murphy(&[], 10)), (None, None, None));
        assert!(reliability(&[], 10).is_empty());
        assert_eq!(wilson(0, 0), (0.0, 1.0));
    }
}
