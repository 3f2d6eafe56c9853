//! Simulated shops: what is wrong is found, and what is right stays.

use super::{Truth, demo, journal, learned};
use lidladder::head::Measure;
use lidladder::learn::{Belief, Learned, Verdict};
use lidladder::profile::{Measurer, Tool};

fn distance(belief: Belief, truth: f64) -> f64 {
    (belief.mean - truth).abs() / belief.sd
}

/// Every verdict, with what it is about.
fn verdicts(learned: &Learned) -> Vec<(String, Verdict)> {
    let mut all = Vec::new();
    for model in &learned.models {
        all.push((model.id.to_string(), model.verdict));
        all.extend(model.shells.iter().map(|shell| (format!("{}/{}", model.id, shell.id), shell.verdict)));
    }
    all.extend(learned.measuring.iter().map(|method| (format!("{:?} {:?}", method.by, method.with), method.verdict)));
    all.push(("misreport".to_owned(), learned.misreport_verdict));
    all.push(("population".to_owned(), learned.population.verdict));
    all
}

fn changed(learned: &Learned) -> Vec<String> {
    verdicts(learned).into_iter().filter(|(_, verdict)| *verdict == Verdict::Change).map(|(what, _)| what).collect()
}

#[test]
fn a_model_that_is_three_points_off_is_found_and_the_others_stay() {
    let catalogue = demo();
    let found = learned(&catalogue, &[journal(&catalogue, Truth { index: 3.0, ..Truth::default() }, 400, 3)]);
    for model in found.models.iter().filter(|model| model.tries > 30) {
        let [before, now] = model.index;
        if model.id.as_str() == "wexmarsh-one" {
            assert!(now.mean - before.mean > 2.0 && distance(now, before.mean + 3.0) < 2.0, "{model:?}");
            assert!(now.sd < before.sd / 3.0 && model.verdict == Verdict::Change, "{model:?}");
        } else {
            assert!(distance(now, before.mean) < 3.0 && model.verdict != Verdict::Change, "{model:?}");
        }
    }
    let scores = found.scores.expect("a fifth of them");
    assert!(scores.brier.mean > -2.0 * scores.brier.error, "{scores:?}");
    assert_eq!(scores.tries, scores.before.reliability.iter().map(|row| row.count).sum::<usize>());
}

#[test]
fn where_the_profiles_are_right_hardly_anything_is_changed() {
    let catalogue = demo();
    let found = learned(&catalogue, &[journal(&catalogue, Truth::default(), 400, 5)]);
    assert!(changed(&found).len() <= 1, "{:?}", changed(&found));
    assert!(distance(found.misreport[1], catalogue.shop.misreport) < 3.0, "{:?}", found.misreport);
    let scores = found.scores.expect("a fifth of them");
    assert!(scores.brier.mean.abs() < 3.0 * scores.brier.error, "{scores:?}");
}

#[test]
fn reasons_that_are_misreported_more_often_are_heard() {
    let catalogue = demo();
    let found = learned(&catalogue, &[journal(&catalogue, Truth { misreport: 0.12, ..Truth::default() }, 500, 7)]);
    let [before, now] = found.misreport;
    assert!(now.mean > 0.15 && distance(now, 0.2) < 3.0 && now.sd < before.sd, "{:?}", found.misreport);
}

#[test]
fn a_shop_that_is_wrong_about_tape_and_customers_hears_of_it() {
    let catalogue = demo();
    let found = learned(
        &catalogue,
        &[journal(&catalogue, Truth { tape: 3.0, tapes: 2, shift: 8.0, ..Truth::default() }, 400, 7)],
    );
    let of = |by, with| found.measuring.iter().find(|method| (method.by, method.with) == (by, with)).unwrap();
    let tape = of(Measurer::Staff, Tool::Tape);
    assert!(tape.sd[1].mean > 5.0 && distance(tape.sd[1], 6.0) < 3.0, "{tape:?}");
    let caliper = of(Measurer::Staff, Tool::Caliper);
    assert!(distance(caliper.sd[1], 1.5) < 3.0 && caliper.verdict != Verdict::Change, "{caliper:?}");
    assert_eq!(of(Measurer::Customer, Tool::Phone).verdict, Verdict::Silent);
    let [_, shift] = found.population.shift[Measure::Circumference.index()];
    assert!(distance(shift, 8.0) < 3.0 && shift.sd < 1.5, "{shift:?}");
    assert_eq!(found.population.verdict, Verdict::Change);
    let own = found.population.own.expect("people");
    let theirs = &catalogue.population("adults").unwrap().components()[0].heads;
    assert!((own.components()[0].heads.mean[0] - theirs.mean[0] - shift.mean).abs() < 1e-9);
}

#[test]
fn five_customers_change_nothing() {
    let catalogue = demo();
    let found = learned(&catalogue, &[journal(&catalogue, Truth { index: 3.0, ..Truth::default() }, 5, 3)]);
    for (what, verdict) in verdicts(&found) {
        assert!(matches!(verdict, Verdict::TooFew | Verdict::Silent), "{what}: {verdict:?}");
    }
    for model in &found.models {
        assert!((model.index[1].mean - model.index[0].mean).abs() < 1.5 * model.index[0].sd, "{model:?}");
        assert!(model.index[1].sd > 0.5 * model.index[0].sd, "{model:?}");
    }
    assert!((found.misreport[1].mean - found.misreport[0].mean).abs() < 0.02, "{:?}", found.misreport);
    assert!(found.population.shift.iter().all(|[before, now]| now.mean.abs() < before.sd), "{:?}", found.population);
}

#[test]
fn nobody_says_nothing() {
    let catalogue = demo();
    let found = learned(&catalogue, &[]);
    assert!(verdicts(&found).iter().all(|(_, verdict)| *verdict == Verdict::Silent), "{:?}", verdicts(&found));
    assert!((found.customers, found.tries) == (0, 0) && found.scores.is_none());
    assert!((found.misreport[1].mean - 0.08).abs() < 1e-3, "{:?}", found.misreport);
}
