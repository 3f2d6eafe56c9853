//! Other heads give the same figures within the stated errors.

use super::{RANGE, customer, tape};
use itertools::Itertools;
use lidladder::fit::{SizeChance, inspect};
use lidladder::head::{Measure, Reading};

/// Pairs of seeds, each for another head.
const PAIRS: u64 = 10;

/// Both errors are four standard errors, estimated from eight sets each. Of 4247 figures of 200 pairs of plans none
/// was further apart than their sum; the room is for figures near 0 or 1, where eight sets may all agree by chance.
const ROOM: f64 = 0.002;

#[test]
fn another_seed_differs_by_no_more_than_the_errors_say() {
    let models = ["wexmarsh-one", "haspenfell-plum", "dunvarrick-gravel", "quorrie-plain"];
    let (mut compared, mut beyond) = (0, Vec::new());
    for pair in 0..PAIRS {
        let step = f64::from(u32::try_from(pair).unwrap());
        let model = RANGE.model(models[usize::try_from(pair).unwrap() % models.len()]).unwrap();
        let fits = |seed| {
            let mut readings = tape(545.0 + 6.0 * step);
            if pair % 3 == 0 {
                readings.push(Reading { measure: Measure::Breadth, value: 150.0, sd: 1.5 });
            }
            inspect(&RANGE, &customer(readings, seed), model, None).unwrap().sizes
        };
        let (a, b): (Vec<SizeChance>, Vec<SizeChance>) = (fits(2 * pair + 100), fits(2 * pair + 101));
        for (a, b) in a.iter().zip_eq(&b) {
            let (apart, stated) = ((a.fit.value - b.fit.value).abs(), a.fit.error + b.fit.error);
            assert!(apart <= stated + ROOM, "{pair}, {}: {:?} and {:?}", a.size, a.fit, b.fit);
            if apart > stated {
                beyond.push((pair, apart - stated));
            }
            compared += usize::from(a.fit.value > 0.01);
        }
    }
    assert!(compared > 25, "{compared} figures say nothing");
    assert!(beyond.len() * 50 <= compared, "beyond the stated errors: {beyond:?} of {compared}");
}
