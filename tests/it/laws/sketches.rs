//! Laws of a profile from experience.

use super::{RANGE, measured, population, tape};
use crate::oracle_plan::dice::Dice;
use lidladder::catalogue::Catalogue;
use lidladder::head::{Posterior, Reading};
use lidladder::profile::{Kind, Model, Reason, Zone};
use lidladder::sketch::{
    Experience, Fineness, NewSize, PadSource, Pitch, Sketch, Tried, sketch, standard_pads, statements,
};
use lidladder::unit::Id;
use proptest::prelude::*;
use rstest::rstest;

/// Fine enough for laws: signs and orders, not digits.
const COARSE: Fineness = Fineness {
    index: Pitch { per_sd: 6.0, widest: 0.5, reach: 7.0 },
    offset: Pitch { per_sd: 3.0, widest: 1.0, reach: 5.0 },
    heads: 64,
};

/// A size M of 57 to 58 cm, and no word about its shape.
fn experience(tried: Vec<Tried>) -> Experience<'static> {
    let (standard, source) = standard_pads(&RANGE, RANGE.model("wexmarsh-one"), None, 575.0);
    let size = NewSize {
        label: Id::try_from("M").unwrap(),
        circumference: (570.0, 580.0),
        standard,
        given: Vec::new(),
        source,
    };
    assert!(matches!(source, PadSource::Like(_, size) if size.label.as_str() == "M"));
    Experience {
        sizes: vec![size],
        statements: statements(&RANGE, &[], None, None),
        tried,
        population: population().id.clone(),
        seed: 1,
    }
}

fn tried(readings: Vec<Reading>, reason: Option<Reason>) -> Tried {
    Tried { size: 0, head: Posterior::new(population(), &readings, None), readings, mounted: None, reason }
}

/// A head of 575 mm and such a shape, measured by staff.
fn shaped(index: f64) -> Vec<Reading> {
    let (length, breadth) = RANGE.shop.fit.outline.nominal(575.0, index);
    measured(575.0, length, breadth)
}

fn made(tried: Vec<Tried>) -> Sketch {
    sketch(&RANGE, &experience(tried), COARSE)
}

fn moved(sketch: &Sketch) -> f64 {
    sketch.index.mean.value - sketch.prior.mean
}

#[rstest]
#[case(71.0)]
#[case(74.0)]
#[case(83.0)]
#[case(86.0)]
fn a_customer_whom_it_fits_pulls_the_index_to_the_head(#[case] index: f64) {
    let sketch = made(vec![tried(shaped(index), None)]);
    let way = index - sketch.prior.mean;
    assert!(moved(&sketch) * way > 0.0 && moved(&sketch).abs() < way.abs(), "{index}: {}", moved(&sketch));
    assert!((sketch.heard[0].pull - moved(&sketch)).abs() < 1e-6, "alone, its pull is the whole way");
}

/// What a report says of the helmet, for a head of the middle: a helmet that is "too oval" has a lower index than
/// the head, however much the next one should be rounder.
#[rstest]
#[case(Reason::TooOval, -1.0)]
#[case(Reason::TemplesPress, -1.0)]
#[case(Reason::LooseFrontToBack, -1.0)]
#[case(Reason::TooRound, 1.0)]
#[case(Reason::BrowRearPress, 1.0)]
#[case(Reason::LooseSides, 1.0)]
fn a_report_moves_the_index_where_its_words_point(#[case] reason: Reason, #[case] way: f64) {
    let sketch = made(vec![tried(shaped(78.5), Some(reason))]);
    assert!(moved(&sketch) * way > 0.3, "{}: {}", reason.id(), moved(&sketch));
}

#[rstest]
#[case(Reason::TightAllRound, 595.0, -1.0)]
#[case(Reason::LooseAllRound, 555.0, 1.0)]
#[case(Reason::RollsOffForward, 555.0, 1.0)]
fn tight_or_loose_all_round_moves_the_size_more_than_the_shape(
    #[case] reason: Reason,
    #[case] circumference: f64,
    #[case] way: f64,
) {
    let (length, breadth) = RANGE.shop.fit.outline.nominal(circumference, 78.5);
    let sketch = made(vec![tried(measured(circumference, length, breadth), Some(reason)); 3]);
    let moved = [moved(&sketch) / sketch.prior.sd, sketch.offset.mean.value / sketch.prior_offset_sd];
    assert!(moved[1] * way > 0.3 && moved[1].abs() > 2.0 * moved[0].abs(), "{moved:?}");
}

#[rstest]
#[case(78.5, None)]
#[case(72.0, None)]
#[case(78.5, Some(Reason::TooOval))]
fn more_customers_of_a_kind_narrow_it(#[case] index: f64, #[case] reason: Option<Reason>) {
    let sd = |count| made(vec![tried(shaped(index), reason); count]).index.sd.value;
    let sds = [2, 4, 8, 16].map(sd);
    assert!(sds.is_sorted_by(|a, b| a > b), "{sds:?}");
}

#[test]
fn the_order_of_customers_changes_nothing() {
    let mut customers = vec![
        tried(shaped(72.0), None),
        tried(shaped(80.0), Some(Reason::TooOval)),
        tried(tape(566.0), Some(Reason::LooseAllRound)),
        tried(tape(584.0), None),
    ];
    let first = made(customers.clone());
    customers.reverse();
    customers.swap(1, 2);
    let other = made(customers);
    assert!((first.index.mean.value - other.index.mean.value).abs() < 1e-9);
    assert!((first.index.sd.value - other.index.sd.value).abs() < 1e-9);
    assert!((first.offset.mean.value - other.offset.mean.value).abs() < 1e-9);
    assert!((first.at_best.probability - other.at_best.probability).abs() < 1e-9);
}

/// With ten other outcomes, a report that is wrong ten times out of eleven is one of eleven at random.
#[test]
fn the_more_reports_are_wrong_the_less_they_tell() {
    let customers = experience(vec![tried(shaped(72.0), None), tried(shaped(77.0), None)]);
    let with = |misreport| {
        let mut range = Catalogue::clone(&RANGE);
        range.shop.misreport = misreport;
        sketch(&range, &customers, COARSE)
    };
    let learned = |sketch: &Sketch| sketch.prior.sd - sketch.index.sd.value;
    let all = [0.02, 0.08, 0.3, 0.5].map(|misreport| learned(&with(misreport)));
    assert!(all.is_sorted_by(|a, b| a > b), "{all:?}");
    let none = with(10.0 / 11.0);
    assert!(moved(&none).abs() < 1e-3 && learned(&none).abs() < 1e-3, "{none:?}");
}

/// A helmet that fits with thinner side pads is narrower than one that fits the same head with its own.
#[test]
fn pads_that_were_mounted_count() {
    let with_sides = |thickness: f64| {
        let mut customer = tried(shaped(78.5), None);
        let mut pads = experience(Vec::new()).sizes[0].standard;
        *pads.get_mut(Zone::Sides) = Some(thickness);
        customer.mounted = Some(pads);
        made(vec![customer]).index.mean.value
    };
    let own = experience(Vec::new()).sizes[0].standard.get(Zone::Sides).unwrap();
    let [thin, same, thick] = [own - 4.0, own, own + 4.0].map(with_sides);
    assert!(thin + 0.3 < same && same + 0.3 < thick, "{thin} {same} {thick}");
    assert!((same - made(vec![tried(shaped(78.5), None)]).index.mean.value).abs() < 1e-12);
}

#[test]
fn another_seed_stays_within_the_error() {
    let customers =
        || vec![tried(tape(572.0), None), tried(shaped(75.0), Some(Reason::TooRound)), tried(tape(585.0), None)];
    let with = |seed| sketch(&RANGE, &Experience { seed, ..experience(customers()) }, COARSE).index;
    let [first, second, third] = [1, 2, 3].map(with);
    assert_ne!(first, second);
    for (a, b) in [(first, second), (second, third), (first, third)] {
        assert!((a.mean.value - b.mean.value).abs() <= a.mean.error + b.mean.error, "{a:?} {b:?}");
        assert!((a.sd.value - b.sd.value).abs() <= a.sd.error + b.sd.error, "{a:?} {b:?}");
    }
}

/// Helmets that are wanted long by one customer and round by the next.
#[test]
fn customers_who_can_not_both_be_right_make_two_humps() {
    let both = [tried(shaped(70.0), None), tried(shaped(88.0), None)];
    let sketch = made([both.clone(), both.clone(), both].concat());
    let [long, round] = sketch.humps.expect("two groups of three");
    assert!(long.mean < 76.0 && round.mean > 82.0, "{long:?} {round:?}");
    assert!((long.share + round.share - 1.0).abs() < 1e-9);
    assert!(sketch.at_best.probability < 0.02, "{:?}", sketch.at_best);
    assert_eq!(made(vec![tried(shaped(70.0), None); 6]).humps, None);
}

fn any_customer() -> impl Strategy<Value = Tried> {
    let reasons: Vec<Option<Reason>> =
        std::iter::once(None).chain(Reason::geometric().iter().copied().map(Some)).collect();
    (any::<u64>(), proptest::sample::select(reasons), 0..4_usize).prop_map(|(seed, reason, count)| {
        let mut dice = Dice::new(seed);
        let head = super::any_head(&mut dice);
        let readings = measured(head.circumference, head.length, head.breadth).into_iter().take(count);
        let exact = |reading: Reading| Reading { sd: dice.one_of(&[0.0, reading.sd]), ..reading };
        tried(readings.map(exact).collect(), reason)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_said_figures_stay_figures(customers in proptest::collection::vec(any_customer(), 0..6)) {
        let count = customers.len();
        let sketch = made(customers);
        let index = sketch.index;
        prop_assert!(index.mean.value.is_finite() && index.sd.value > 0.0 && index.sd.value < 12.0);
        prop_assert!(index.mean.error.is_finite() && index.sd.error.is_finite());
        prop_assert!(sketch.offset.mean.value.abs() < 15.0 && sketch.offset.sd.value > 0.0);
        prop_assert!(sketch.interval.0 < index.mean.value && index.mean.value < sketch.interval.1);
        prop_assert!(sketch.correlation.abs() <= 1.0 + 1e-9);
        for odd in [sketch.here, sketch.at_best] {
            prop_assert!((0.0..=1.0 + 1e-9).contains(&odd.probability), "{odd:?}");
        }
        prop_assert_eq!(sketch.heard.len(), count);
        prop_assert!(sketch.heard.iter().all(|heard| heard.expected > 0.0 && heard.expected <= 1.0 && heard.pull.is_finite()));
    }
}

/// Pads that nobody gave: of the nearest size of a model that it is like, else the middle of the range.
#[test]
fn pads_from_elsewhere_are_those_of_a_neighbour_or_the_middle_of_the_range() {
    let one = RANGE.model("wexmarsh-one").unwrap();
    for (_, size) in one.sizes() {
        let near = size.centre() + 9.0;
        let (pads, source) = standard_pads(&RANGE, Some(one), None, near);
        assert_eq!(pads, size.standard);
        assert_eq!(source, PadSource::Like(one, size));
    }
    for kind in [None, Some(Kind::OpenFace), Some(Kind::OffRoad)] {
        let (pads, source) = standard_pads(&RANGE, None, kind, 575.0);
        let models = RANGE.models().iter().filter(|model| kind.is_none_or(|kind| model.kind == kind));
        let sizes: Vec<_> = models.flat_map(Model::sizes).map(|(_, size)| size.standard).collect();
        assert_eq!(source, PadSource::Range(sizes.len(), kind));
        for (zone, middle) in pads.iter().filter_map(|(zone, pad)| Some((zone, (*pad)?))) {
            let known = || sizes.iter().filter_map(|pads| *pads.get(zone));
            // Half a millimetre is what rounding may move it by.
            let below = known().filter(|mm| *mm < middle - 0.5).count();
            let above = known().filter(|mm| *mm > middle + 0.5).count();
            assert!(2 * below <= sizes.len() && 2 * above <= sizes.len(), "{zone:?} {middle}: {below} {above}");
        }
    }
}
