//! Customers whose heads are known: what they are told, and what becomes of it.

use crate::laws::RANGE;
use crate::oracle_plan::dice::Dice;
use itertools::Itertools;
use lidladder::away::{Ask, Order, Proposal, Verdict, order};
use lidladder::catalogue::Catalogue;
use lidladder::fit::{Candidate, Customer, PadSet, foam};
use lidladder::head::{Dimensions, Measure, Particles, Posterior, Reading};
use lidladder::profile::Axis;
use lidladder::unit::Money;
use rstest::rstest;

fn ask<'a>(catalogue: &'a Catalogue, readings: Vec<Reading>, seed: u64) -> Ask<'a> {
    let population = catalogue.population("adults").expect("part of the demo range");
    let head = Posterior::new(population, &readings, None);
    let customer = Customer { head, readings, population: population.id.clone(), worn: Vec::new(), seed };
    Ask { customer, models: catalogue.models().iter().collect(), absent: Vec::new() }
}

/// Errors at home by the mean of three readings: 7 and 4 mm for one (demo range), of whose variance 0.7 stays.
fn home_sd(measure: Measure) -> f64 {
    let one: f64 = if measure == Measure::Circumference { 7.0 } else { 4.0 };
    one * 0.8_f64.sqrt()
}

fn readings(head: Dimensions, sd: impl Fn(Measure) -> f64) -> Vec<Reading> {
    let values = Measure::ALL.into_iter().zip(head.to_array());
    values.map(|(measure, value)| Reading { measure, value, sd: sd(measure) }).collect()
}

/// Whether a helmet as it truly is fits a head with these pads: strains by the formulas of the method, section 3, with
/// the head's own draw of the profile's errors.
fn truly_fits(candidate: &Candidate<'_>, pads: &PadSet, head: Dimensions, dice: &mut Dice) -> bool {
    let rules = &RANGE.shop.fit;
    let mut real = candidate.clone();
    real.nominal.shape_index += candidate.error.shape_index * dice.normal();
    real.nominal.circumference += candidate.error.centre * dice.normal();
    let taken = rules.outline.effective(head);
    let taken = [taken.length, taken.breadth, taken.face_width];
    let cavity = real.cavity(rules);
    Axis::ALL.into_iter().enumerate().all(|(at, axis)| {
        let thickness = foam(pads, axis);
        let bands = rules.bands(axis);
        let strain = 1.0 - (cavity[at] - taken[at]) / thickness;
        thickness <= 0.0 || (bands.light_below..=bands.tight_above).contains(&strain)
    })
}

fn proposed<'o>(made: &'o Order<'_>) -> Option<&'o Proposal> {
    match made.verdict {
        Verdict::One => made.one.as_ref(),
        Verdict::Two => made.two.as_ref(),
        Verdict::ComeIn => None,
    }
}

/// Of customers who are told a chance, about as many as told have a helmet that fits. Coarse: four standard errors of so
/// many coins.
#[test]
fn chances_come_true() {
    let population = RANGE.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), 256, 77, 0);
    let mut dice = Dice::new(20_261);
    let mut told: Vec<(f64, bool)> = Vec::new();
    for at in 0..heads.len() {
        let head = heads.head(at);
        let read = Measure::ALL.map(|measure| heads.values(measure)[at] + home_sd(measure) * dice.normal());
        let all = readings(Dimensions::from_array(read), home_sd);
        // A third sends the tape alone, a third leaves out the face.
        let sent = all.into_iter().take([1, 3, 4][at % 3]).collect();
        let made = order(&RANGE, &ask(&RANGE, sent, 1));
        for proposal in [&made.one, &made.two].into_iter().flatten() {
            let fits = proposal
                .sent
                .iter()
                .map(|sent| truly_fits(&made.candidates[sent.candidate], &sent.pads, head, &mut dice));
            told.push((proposal.chance.value, fits.collect_vec().contains(&true)));
        }
    }
    let mut seen = 0;
    for (from, to) in [(0.0, 0.5), (0.5, 0.65), (0.65, 0.8), (0.8, 0.9), (0.9, 1.01)] {
        let group = told.iter().filter(|(chance, _)| (from..to).contains(chance)).collect_vec();
        if group.len() < 20 {
            continue;
        }
        let count = f64::from(u32::try_from(group.len()).expect("a few hundred"));
        let expected = group.iter().map(|(chance, _)| chance).sum::<f64>() / count;
        let came = group.iter().map(|(_, fits)| f64::from(u8::from(*fits))).sum::<f64>() / count;
        let error = 4.0 * (expected * (1.0 - expected) / count).sqrt();
        assert!((came - expected).abs() < error, "told {expected:.3}, came true {came:.3} of {count}");
        seen += 1;
    }
    assert!(seen >= 4, "{seen} groups");
}

/// Head dimensions on the ellipse of 580 mm.
fn of_shape(index: f64) -> Dimensions {
    let (length, breadth) = RANGE.shop.fit.outline.nominal(580.0, index);
    Dimensions { circumference: 580.0, length, breadth, face_width: 140.0 }
}

#[test]
fn a_long_head_gets_other_pairs_than_a_round_one() {
    let pair = |index: f64| {
        let made = order(&RANGE, &ask(&RANGE, readings(of_shape(index), home_sd), 1));
        let two = made.two.expect("the range has more than one helmet");
        two.sent.iter().map(|sent| made.candidates[sent.candidate].nominal.shape_index).sum::<f64>() / 2.0
    };
    let [long, round] = [72.0, 85.0].map(pair);
    assert!(long + 2.0 < round, "mean shape indices inside: {long} and {round}");
}

#[test]
fn whoever_is_measured_exactly_gets_one_helmet() {
    let longways = Dimensions { circumference: 575.0, length: 204.2, breadth: 149.1, face_width: 139.2 };
    let made = order(&RANGE, &ask(&RANGE, readings(longways, |_| 0.0), 1));
    assert_eq!(made.verdict, Verdict::One);
    let sent = &made.one.as_ref().expect("one").sent[0];
    assert_eq!(made.candidates[sent.candidate].title(), "Lantreth Longways in M");
    assert!(made.one.is_some_and(|one| one.chance.value > 0.9));
}

#[test]
fn a_pair_is_at_least_as_good_as_any_two_of_the_best_singles() {
    let all = ask(&RANGE, vec![Reading { measure: Measure::Circumference, value: 575.0, sd: 7.0 }], 1);
    let made = order(&RANGE, &all);
    let [one, two] = [made.one, made.two].map(|proposal| proposal.expect("the range is large"));
    // The best single of what is left without the model of the best.
    let best = made.candidates[one.sent[0].candidate].model.id.clone();
    let rest = Ask { models: RANGE.models().iter().filter(|model| model.id != best).collect(), ..all };
    let second = order(&RANGE, &rest).one.expect("the range is large");
    assert!(two.chance.value + 0.02 >= one.chance.value.max(second.chance.value));
    let alone = two.sent.iter().map(|sent| sent.alone.value).collect_vec();
    assert!(alone.iter().all(|alone| *alone > 0.1), "each fits whom the other doesn't: {alone:?}");
}

/// Dearer postage, either way, or dearer handling never turns another verdict into two helmets; dearer visits never turn
/// an order into a visit.
#[rstest]
#[case(575.0, 7.0)]
#[case(592.0, 6.0)]
fn dearer_ways_are_taken_less(#[case] around: f64, #[case] sd: f64) {
    let reading = vec![Reading { measure: Measure::Circumference, value: around, sd }];
    let verdicts = |change: &dyn Fn(&mut Catalogue, u64)| {
        let verdict = |minor: u64| {
            let mut catalogue = RANGE.clone();
            catalogue.shop.away.least_chance = 0.3;
            catalogue.shop.away.visit = Money::of_minor(20_000);
            change(&mut catalogue, minor);
            order(&catalogue, &ask(&catalogue, reading.clone(), 1)).verdict
        };
        [0, 500, 2_000, 6_000, 20_000].map(verdict)
    };
    let once_gone = |verdicts: [Verdict; 5], wanted: Verdict| {
        let first = verdicts.iter().position(|verdict| *verdict != wanted).unwrap_or(verdicts.len());
        verdicts[first..].iter().all(|verdict| *verdict != wanted)
    };
    let out = verdicts(&|catalogue, minor| catalogue.shop.away.postage_out = Money::of_minor(minor));
    let back = verdicts(&|catalogue, minor| catalogue.shop.away.postage_back = Money::of_minor(minor));
    let handling = verdicts(&|catalogue, minor| catalogue.shop.away.handling = Money::of_minor(minor));
    for dearer in [out, back, handling] {
        assert!(once_gone(dearer, Verdict::Two), "{dearer:?}");
        assert_eq!(dearer[0], Verdict::Two, "where it costs nothing, two are sent");
    }
    let visits = verdicts(&|catalogue, minor| catalogue.shop.away.visit = Money::of_minor(minor));
    assert!(once_gone(visits, Verdict::ComeIn), "{visits:?}");
    assert_eq!(visits[0], Verdict::ComeIn, "a visit that costs nothing is best");
}

#[test]
fn what_fits_too_seldom_is_not_sent() {
    let mut catalogue = RANGE.clone();
    catalogue.shop.away.least_chance = 0.999;
    let reading = vec![Reading { measure: Measure::Circumference, value: 575.0, sd: 7.0 }];
    let made = order(&catalogue, &ask(&catalogue, reading, 1));
    assert_eq!((made.verdict, made.lead), (Verdict::ComeIn, None), "nothing else could be proposed");
    assert_eq!(proposed(&made), None);
}

/// What one more measure would change is what it changes on average: the best single after it fits more often.
#[test]
fn another_measure_never_makes_the_best_single_much_worse() {
    let reading = vec![Reading { measure: Measure::Circumference, value: 575.0, sd: 7.0 }];
    let made = order(&RANGE, &ask(&RANGE, reading, 1));
    assert_eq!(made.advice.gains.len(), 3);
    assert!(made.advice.gains.iter().all(|gain| gain.first_fit > made.advice.first_fit - 0.02), "{:?}", made.advice);
    assert!(made.advice.gains[0].first_fit > made.advice.first_fit + 0.05);
}
