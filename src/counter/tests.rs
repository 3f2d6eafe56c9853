//! What follows from events, and what comes next.

use super::*;
use crate::catalogue::{Catalogue, Origin as Profiles, load};
use crate::diag::Sources;
use crate::fit::{Candidate, FIT, HeadSet, PadSet, minutes_between, pad_sets};
use crate::head::Measure;
use crate::journal::{Day, Head, Read, Wears};
use crate::plan::Lead;
use crate::profile::{Measurer, Reason, Tool};
use crate::unit::Id;
use itertools::Itertools;
use rstest::rstest;
use std::sync::LazyLock;

static RANGE: LazyLock<Catalogue> = LazyLock::new(|| load(&Profiles::BuiltIn, &mut Sources::default()).unwrap());

fn id(text: &str) -> Id {
    Id::try_from(text).unwrap()
}

fn opening() -> Opening {
    let read = Read { measure: Measure::Circumference, value: 575.0, sd: 3.0, by: Measurer::Staff, with: Tool::Tape };
    Opening {
        day: Day::new(2026, 3, 14).unwrap(),
        seed: 1,
        head: Head { population: id("adults"), readings: vec![read], shape: None, wears: Vec::new() },
        models: RANGE.models().iter().map(|model| model.id.clone()).collect(),
        absent: Vec::new(),
        tries: 4,
        minutes: None,
        lead: Lead::ShopFirst,
    }
}

fn standard(model: &str, size: &str) -> PadSet {
    let model = RANGE.model(model).unwrap();
    model.sizes().find(|(_, known)| known.label.as_str() == size).unwrap().1.standard
}

fn tried(model: &str, size: &str, reason: Option<Reason>) -> Event {
    let helmet = OnHead { model: id(model), size: id(size), pads: standard(model, size), is_swap: false };
    Event::Tried(Tried { helmet, fit_probability: Some(0.5), minutes: 11.0, reason })
}

fn session(events: Vec<Event>) -> Session<'static> {
    Session::new(&RANGE, opening(), events).unwrap()
}

#[test]
fn a_session_that_begins_does_what_the_plan_does() {
    let opening = opening();
    let next = session(Vec::new()).next().unwrap();
    let customer = opening.customer(&RANGE).unwrap();
    let models = RANGE.models().iter().collect();
    let query = crate::plan::Query { customer, models, absent: vec![], tries: 4, minutes: None, lead: opening.lead };
    let made = crate::plan::plan(&RANGE, &query);
    let (first, now) = (made.first.as_ref().unwrap(), next.now.as_ref().unwrap());
    assert_eq!(made.candidates[first.candidate].size, now.size);
    assert_eq!(first.fit, now.fit);
    assert!(now.heard[0].value >= first.pads.fit_at_once.value - 0.02, "it begins with no worse pads");
    assert_eq!(next.plan.unwrap(), made);
}

#[test]
fn what_is_heard_adds_up_to_everything() {
    let now = session(vec![tried("wexmarsh-one", "M", Some(Reason::TemplesPress))]).next().unwrap().now.unwrap();
    assert!((now.heard.iter().map(|quote| quote.value).sum::<f64>() - 1.0).abs() < 1e-9);
    assert_eq!(now.heard.len(), 1 + Reason::GEOMETRIC);
}

#[rstest]
#[case::nothing(&[], 0)]
#[case::once(&[1], 1)]
#[case::taken_back(&[1, 0], 0)]
#[case::twice(&[1, 2, 0, 0], 0)]
#[case::once_more(&[1, 2, 0, 0, 0], 0)]
#[case::then_another(&[1, 0, 2], 1)]
#[case::a_stop_stays(&[9, 0], 1)]
#[case::a_stop_stays_behind_others(&[1, 9, 2, 0, 0], 2)]
fn taking_back_takes_the_last_that_is_no_stop(#[case] script: &[u8], #[case] left: usize) {
    let event = |step: &u8| match step {
        0 => Event::TookBack,
        9 => tried("wexmarsh-one", "L", Some(Reason::TurnsOnHead)),
        _ => tried("wexmarsh-one", "M", Some(Reason::CheeksLoose)),
    };
    assert_eq!(Standing::after(&script.iter().map(event).collect_vec()).tried.len(), left);
}

#[test]
fn a_stop_puts_one_size_out_and_leaves_no_pads_to_swap() {
    let session = session(vec![tried("wexmarsh-one", "M", Some(Reason::RollsOffForward))]);
    let standing = session.standing();
    assert!(standing.is_stopped(&id("wexmarsh-one"), &id("M")) && !standing.is_stopped(&id("wexmarsh-one"), &id("L")));
    assert_eq!(standing.on_head(), None);
    let now = session.next().unwrap().now.unwrap();
    assert!(!(now.model.id.as_str() == "wexmarsh-one" && now.size.label.as_str() == "M"));
    let helmet =
        OnHead { model: id("wexmarsh-one"), size: id("M"), pads: standard("wexmarsh-one", "M"), is_swap: true };
    assert_eq!(session.chose(helmet), Err(Refused::Stopped));
    assert_eq!(session.took_back(), Err(Refused::StopStays));
}

#[rstest]
#[case::too_heavy(Reason::TooHeavy, true, true)]
#[case::over_budget(Reason::OverBudget, true, true)]
#[case::dislikes(Reason::DislikesIt, true, false)]
#[case::view(Reason::ViewBlocked, true, false)]
#[case::crown(Reason::CrownPresses, false, false)]
#[case::temples(Reason::TemplesPress, false, false)]
fn a_complaint_puts_out_what_is_no_better(#[case] reason: Reason, #[case] model: bool, #[case] others: bool) {
    let out = Standing::after(&[tried("wexmarsh-one", "M", Some(reason))]).out(&RANGE);
    assert_eq!(out.models.contains(&id("wexmarsh-one")), model);
    assert_eq!(out.models.len() > 1, others, "{:?}", out.models);
    assert_eq!(out.sizes, [(id("wexmarsh-one"), id("M"))]);
    let failed = RANGE.model("wexmarsh-one").unwrap();
    for gone in out.models.iter().filter(|gone| **gone != failed.id) {
        assert!(crate::profile::is_no_better(reason, failed, RANGE.model(gone.as_str()).unwrap()));
    }
}

/// The rule for "too heavy" leads where nothing geometric was heard.
#[test]
fn a_rule_for_what_no_geometry_tells_is_asked_first() {
    let edges = RANGE.edges().iter().filter(|edge| edge.reason == Reason::TooHeavy);
    let mut asked = 0;
    for edge in edges.unique_by(|edge| &edge.from) {
        let model = RANGE.model(edge.from.as_str()).unwrap();
        let Some((_, size)) =
            model.sizes().find(|(_, size)| size.circumference.0 <= 575.0 && 575.0 <= size.circumference.1)
        else {
            continue;
        };
        let next =
            session(vec![tried(edge.from.as_str(), size.label.as_str(), Some(Reason::TooHeavy))]).next().unwrap();
        let Origin::Plan { source, rival } = next.now.unwrap().origin else { panic!("the fitter chose nothing") };
        let named = [Some(source), rival.map(|rival| rival.source)];
        asked += usize::from(named.iter().flatten().any(|source| matches!(source, crate::plan::Source::Rule(_))));
    }
    assert!(asked > 0, "some rule for it reaches the fitter");
}

/// All pad sets on offer, one by one, on the same heads.
#[rstest]
#[case("wexmarsh-one", "M", Reason::TemplesPress)]
#[case("wexmarsh-one", "M", Reason::LooseFrontToBack)]
#[case("dunvarrick-gravel", "M", Reason::CheeksSqueeze)]
#[case("haspenfell-plum", "M", Reason::LooseSides)]
fn the_other_pads_are_the_best_of_all_on_offer(#[case] model: &str, #[case] size: &str, #[case] reason: Reason) {
    let session = session(vec![tried(model, size, Some(reason))]);
    let standing = session.standing();
    let customer = standing.customer(session.opening(), &RANGE).unwrap();
    let helmet = standing.on_head().unwrap();
    let were_in = standing.sets_on_head().collect_vec();
    let heads = HeadSet::chooser(&RANGE, &customer);
    let best = pads::other(&RANGE, (&customer, &heads), helmet, &were_in);
    let known = RANGE.model(model).unwrap();
    let candidate = Candidate::of_models([known], &RANGE).into_iter().find(|c| c.size.label.as_str() == size).unwrap();
    let worth = |pads: &PadSet| {
        let mounted = candidate.clone().mounted(pads, &RANGE.shop.fit, 0.0);
        let tried = heads.try_all(&RANGE, &customer, &[&mounted]);
        let fitting = tried.reason[0].iter().zip(&heads.heads.weight).filter(|(reason, _)| **reason == FIT);
        let minutes = minutes_between(&helmet.pads, pads, known) + RANGE.shop.minutes.recheck;
        fitting.map(|(_, weight)| weight).sum::<f64>() * RANGE.shop.minutes.go_without - minutes
    };
    let all = pad_sets(candidate.shell, candidate.size).into_iter().filter(|pads| *pads != helmet.pads);
    let most = all.map(|pads| worth(&pads)).max_by(f64::total_cmp).unwrap();
    match best {
        Some(swap) => assert!((worth(&swap.pads) - most).abs() < 1e-9, "{} instead of {most}", worth(&swap.pads)),
        None => assert!(most < 0.02 * RANGE.shop.minutes.go_without, "{most}"),
    }
}

#[test]
fn more_rounds_of_a_helmet_are_one_record() {
    let Event::Tried(first) = tried("wexmarsh-one", "M", Some(Reason::TemplesPress)) else { panic!("a try") };
    let second =
        Tried { helmet: OnHead { is_swap: true, ..first.helmet.clone() }, minutes: 5.0, reason: None, ..first.clone() };
    let breadth = Read { measure: Measure::Breadth, value: 158.0, sd: 1.5, by: Measurer::Staff, with: Tool::Caliper };
    let events = vec![
        tried("haspenfell-plum", "M", Some(Reason::LooseSides)),
        Event::Measured(breadth),
        Event::Tried(first),
        Event::Tried(second),
        Event::Ended,
    ];
    let records = session(events).records(7);
    let shapes = records.iter().map(|record| (record.number, record.rounds.len(), record.head.readings.len()));
    assert_eq!(shapes.collect_vec(), [(1, 1, 1), (2, 2, 2)]);
    assert!(records.iter().all(|record| record.customer == 7));
    assert!(records[1].fits() && !records[0].fits());
}

#[test]
fn notes_survive_writing_and_reading() {
    let read = Read { measure: Measure::FaceWidth, value: 139.5, sd: 0.0, by: Measurer::Customer, with: Tool::Phone };
    let mut opening =
        Opening { minutes: Some(45.5), lead: Lead::ShopOnly, absent: vec![(id("a"), id("M"))], ..opening() };
    opening.head.shape = Some(2);
    opening.head.wears.push(Wears { model: id("wexmarsh-one"), size: id("L"), reason: Some(Reason::TooOval) });
    opening.head.readings.push(read);
    assert_eq!(read_opening(&opening_note(&opening)), Ok(opening));
    let Event::Tried(on) = tried("wexmarsh-one", "M", Some(Reason::StrapCannotHold)) else { panic!("a try") };
    let events = [
        Event::Chose(on.helmet.clone()),
        Event::Tried(Tried { fit_probability: None, ..on.clone() }),
        Event::Tried(Tried { reason: None, ..on }),
        Event::Declined(id("haspenfell-plum")),
        Event::Measured(read),
        Event::TookBack,
        Event::Ended,
    ];
    for event in events {
        assert_eq!(from_note(&to_note(&event)), Ok(event));
    }
}

#[rstest]
#[case("", "EOF while parsing a value at line 1 column 0")]
#[case(r#"{"event":"tried"}"#, "missing field `model`")]
#[case(
    r#"{"event":"declined","model":"a/b"}"#,
    "`model` a name is 1 to 48 letters, digits and single hyphens, such as \"harbour-two\" or \"XL\""
)]
#[case(r#"{"event":"ended","x":1}"#, "unknown field")]
fn a_note_that_is_none_is_told(#[case] text: &str, #[case] told: &str) {
    let fault = from_note(text).unwrap_err().to_string();
    assert!(fault.starts_with(told), "{fault}");
}

/// A helmet with few pads, every set of them held against every head: swaps to begin with, and once more for those
/// whom another set fits.
#[rstest]
#[case("dunvarrick-mud", "M")]
#[case("dunvarrick-mud", "L")]
fn the_first_pads_take_the_fewest_minutes(#[case] model: &str, #[case] size: &str) {
    let customer = opening().customer(&RANGE).unwrap();
    let model = RANGE.model(model).unwrap();
    let candidate = Candidate::of_models([model], &RANGE).into_iter().find(|c| c.size.label.as_str() == size).unwrap();
    let heads = HeadSet::chooser(&RANGE, &customer);
    let sets = pad_sets(candidate.shell, candidate.size);
    let fits = |pads: &PadSet| {
        let mounted = candidate.clone().mounted(pads, &RANGE.shop.fit, 0.0);
        heads.try_all(&RANGE, &customer, &[&mounted]).reason.remove(0)
    };
    let fits = sets.iter().map(fits).collect_vec();
    let expected = |at: usize| {
        let again = |head: usize| {
            let good = (0..sets.len()).filter(|set| fits[*set][head] == FIT);
            let minutes = good.map(|set| minutes_between(&sets[at], &sets[set], model)).min_by(f64::total_cmp);
            minutes.map_or(0.0, |swap| if swap > 0.0 { swap + RANGE.shop.minutes.recheck } else { 0.0 })
        };
        let later = heads.heads.weight.iter().enumerate().map(|(head, weight)| weight * again(head));
        minutes_between(&candidate.size.standard, &sets[at], model) + later.sum::<f64>()
    };
    let least = (0..sets.len()).map(expected).min_by(f64::total_cmp).unwrap();
    let first = pads::first(&RANGE, (&customer, &heads), &candidate);
    let own = sets.iter().position(|set| *set == first).map(expected).unwrap();
    assert!(sets.len() > 2 && (own - least).abs() < 1e-9, "{own} instead of {least}");
}
