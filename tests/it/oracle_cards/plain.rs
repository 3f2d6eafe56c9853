//! Every figure of a card again, head by head and pad set by pad set.

use super::{ALL, FEW, RANGE, SHELF, card, counted, heads, number};
use itertools::Itertools;
use lidladder::card::{Counts, Which, cards};
use lidladder::fit::{Candidate, SetVerdict, verdict};
use lidladder::head::{EffectiveHead, shape_index};
use lidladder::profile::{Model, Reason, SizeHint, Zone};
use lidladder::range::{Pads, Room};
use rstest::rstest;

/// Why a head fails with the standard pads, and with the best.
type Reasons = (Option<Reason>, Option<Reason>);

/// A measured, a long and a round helmet of several shells, one without pads on offer for most zones, one with few sizes.
const SOME: [&str; 5] =
    ["dunvarrick-gravel", "lantreth-longways", "haspenfell-plum", "dunvarrick-mud", "quorrie-plain"];

fn room(head: usize) -> EffectiveHead {
    RANGE.shop.fit.outline.effective(heads().head(head))
}

/// Labels are whole centimetres with one between them, so each reaches half a centimetre beyond its ends.
fn label(model: &Model, circumference: f64) -> Option<usize> {
    let sizes = model.sizes().map(|(_, size)| size).collect_vec();
    let from = sizes.iter().map(|size| size.circumference.0).fold(f64::INFINITY, f64::min) - 5.0;
    let to = sizes.iter().map(|size| size.circumference.1).fold(f64::NEG_INFINITY, f64::max) + 5.0;
    let off = |at: &usize| (sizes[*at].centre() - circumference).abs();
    (from..=to).contains(&circumference).then(|| (0..sizes.len()).min_by(|a, b| off(a).total_cmp(&off(b))))?
}

fn fits(candidate: &Candidate<'_>, head: usize) -> [bool; 2] {
    let verdict = verdict(candidate, room(head), &RANGE.shop.fit);
    [verdict.sets.iter().any(|set| set.fits() && set.swaps == 0), verdict.best().fits()]
}

#[rstest]
fn the_map_is_that_of_a_plain_loop(#[values(0, 1, 2, 3, 4)] which: usize) {
    let card = card(SOME[which]);
    let candidates = Candidate::of_models([card.model], &RANGE);
    let mut plain = vec![[Counts::default(); 3]; candidates.len()];
    let mut outside = 0;
    for head in 0..heads().len() {
        let Some(size) = label(card.model, heads().circumference[head]) else {
            outside += 1;
            continue;
        };
        let word = RANGE.shop.words.place(shape_index(heads().length[head], heads().breadth[head]));
        let fits = candidates.iter().map(|candidate| fits(candidate, head)).collect_vec();
        let cell = &mut plain[size][word];
        cell.heads += 1;
        cell.standard += u64::from(fits.iter().any(|fits| fits[0]));
        cell.on_offer += u64::from(fits.iter().any(|fits| fits[1]));
    }
    for row in &card.suits.rows {
        if let Which::In(size) = row.which {
            let at = candidates.iter().position(|candidate| candidate.size == size).expect("a size of the model");
            assert_eq!(row.by_word, plain[at], "{}", size.label);
        }
    }
    let ends = card.suits.rows.iter().filter(|row| !matches!(row.which, Which::In(_))).map(|row| row.all().heads);
    assert_eq!(ends.sum::<u64>(), outside);
}

/// What is heard with the standard pads, what some pads cure, and what stays with the best.
#[rstest]
fn complaints_are_those_of_a_plain_loop(#[values(0, 1, 2, 3, 4)] which: usize) {
    let card = card(SOME[which]);
    let candidates = Candidate::of_models([card.model], &RANGE);
    let mut plain = Vec::new();
    for head in 0..heads().len() {
        let Some(size) = label(card.model, heads().circumference[head]) else { continue };
        let verdict = verdict(&candidates[size], room(head), &RANGE.shop.fit);
        let standard = verdict.sets.iter().find(|set| set.swaps == 0).expect("the standard pads");
        plain.push((standard.reason, verdict.best().reason));
    }
    let complaints = &card.complaints;
    let all = plain.len() as u64;
    assert_eq!(complaints.heads, all);
    let count = |is_so: &dyn Fn(&Reasons) -> bool| plain.iter().filter(|it| is_so(it)).count();
    assert_eq!(number(complaints.at_once.value, all), count(&|it| it.0.is_none()) as u64);
    assert_eq!(number(complaints.with_pads.value, all), count(&|it| it.1.is_none()) as u64);
    for reason in Reason::geometric().iter().copied() {
        let expected = [
            count(&|it| it.0 == Some(reason)),
            count(&|it| it.0 == Some(reason) && it.1.is_none()),
            count(&|it| it.1 == Some(reason)),
        ];
        let told = complaints.list.iter().find(|complaint| complaint.reason == reason);
        let told =
            told.map_or([0; 3], |told| [told.heard, told.cured, told.stays].map(|share| number(share.value, all)));
        assert_eq!(told, expected.map(|count| count as u64), "{reason:?}");
    }
}

/// Every head fits at once or has one complaint, and with the best pads fits or keeps one.
#[test]
fn complaints_add_up() {
    for card in &ALL.cards {
        let complaints = &card.complaints;
        let sum = |of: fn(&lidladder::card::Complaint<'_>) -> f64| complaints.list.iter().map(of).sum::<f64>();
        let heard = sum(|complaint| complaint.heard.value);
        let [cured, stays] = [sum(|complaint| complaint.cured.value), sum(|complaint| complaint.stays.value)];
        assert!((complaints.at_once.value + heard - 1.0).abs() < 1e-9, "{}", card.model.id);
        assert!((complaints.with_pads.value + stays - 1.0).abs() < 1e-9, "{}", card.model.id);
        assert!((complaints.at_once.value + cured - complaints.with_pads.value).abs() < 1e-9, "{}", card.model.id);
        for complaint in &complaints.list {
            let shares = complaint.swaps.iter().map(|swap| swap.share.value).sum::<f64>();
            assert!(complaint.cured.value <= complaint.heard.value);
            assert!((shares - f64::from(complaint.cured.value > 0.0)).abs() < 1e-9, "{:?}", complaint.swaps);
        }
    }
}

/// Pads cure the way their name says, as fast as any set that cures.
#[test]
fn the_swaps_are_the_quickest_that_cure() {
    let model = RANGE.model("wexmarsh-one").expect("part of the demo range");
    let candidates = Candidate::of_models([model], &RANGE);
    let minutes = |set: &SetVerdict| set.minutes;
    for complaint in &card("wexmarsh-one").complaints.list {
        let mut plain = Vec::new();
        for head in 0..heads().len() {
            let Some(size) = label(model, heads().circumference[head]) else { continue };
            let verdict = verdict(&candidates[size], room(head), &RANGE.shop.fit);
            let standard = verdict.sets.iter().find(|set| set.swaps == 0).expect("the standard pads");
            let quickest = verdict.sets.iter().filter(|set| set.fits()).map(minutes).min_by(f64::total_cmp);
            plain.extend(quickest.filter(|_| standard.reason == Some(complaint.reason)));
        }
        let told = complaint.swaps.iter().map(|swap| {
            let minutes = swap.zones.iter().map(|(zone, _)| *model.swap_minutes.get(*zone)).sum::<f64>();
            minutes * swap.share.value * plain.len() as f64
        });
        assert!((told.sum::<f64>() - plain.iter().sum::<f64>()).abs() < 1e-6, "{:?}", complaint.reason);
        let direction = complaint.reason.direction().expect("a geometric reason");
        for (zone, turn) in
            complaint.swaps.iter().flat_map(|swap| &swap.zones).filter(|(zone, _)| *zone != Zone::Cheeks)
        {
            let way = zone.axis().map_or(0, |axis| direction[axis as usize]);
            assert_eq!(*turn == lidladder::card::Turn::Thinner, way > 0, "{:?}: {zone:?} {turn:?}", complaint.reason);
        }
    }
}

/// The next helmet is the best on heads with even numbers, and what is told of it is counted on the others.
#[rstest]
fn the_next_helmet_is_chosen_on_one_half_and_told_of_the_other(#[values(0, 1, 2, 3, 4)] which: usize) {
    let card = card(SOME[which]);
    let candidates = Candidate::of_models([card.model], &RANGE);
    let mut looked = 0;
    for complaint in &card.complaints.list {
        let stays = |head: &usize| {
            let size = label(card.model, heads().circumference[*head])?;
            let reason = verdict(&candidates[size], room(*head), &RANGE.shop.fit).best().reason;
            (reason == Some(complaint.reason)).then_some((*head, size))
        };
        let stayed = (0..heads().len()).filter_map(|head| stays(&head)).collect_vec();
        let [even, odd] = [0, 1].map(|half| stayed.iter().filter(|(head, _)| head % 2 == half).copied().collect_vec());
        let fit = |model: &Model, hint: &SizeHint, tries: &[(usize, usize)]| {
            tries.iter().filter(|(head, size)| is_hinted_fit(model, hint, candidates[*size].size, *head)).count()
        };
        let hints = [SizeHint::Same, SizeHint::Up, SizeHint::Down];
        let most = RANGE.models().iter().cartesian_product(&hints).map(|(model, hint)| fit(model, hint, &even)).max();
        match &complaint.computed {
            None => assert!(most == Some(0) || odd.is_empty(), "{:?}", complaint.reason),
            Some(next) => {
                assert_eq!(Some(fit(next.to, &next.size, &even)), most, "{:?}", complaint.reason);
                let told = number(next.fits.value, odd.len() as u64);
                assert_eq!(told, fit(next.to, &next.size, &odd) as u64, "{:?}", complaint.reason);
                looked += 1;
            }
        }
    }
    assert!(looked > 0, "something stays with somebody");
}

/// The size that a hint means, by hand: the same label, or the next middle at least half a centimetre away.
fn is_hinted_fit(model: &Model, hint: &SizeHint, failed: &lidladder::profile::Size, head: usize) -> bool {
    let candidates = Candidate::of_models([model], &RANGE);
    let rising = candidates.iter().sorted_by(|a, b| a.size.centre().total_cmp(&b.size.centre()));
    let mut rising = rising.collect_vec();
    let meant = match hint {
        SizeHint::Same => rising.iter().find(|candidate| candidate.size.label == failed.label),
        SizeHint::Up => rising.iter().find(|candidate| candidate.size.centre() > failed.centre() + 5.0),
        _ => {
            rising.reverse();
            rising.iter().find(|candidate| candidate.size.centre() < failed.centre() - 5.0)
        }
    };
    let taken = room(head);
    meant.is_some_and(|candidate| {
        let room = Room::of(candidate, Pads::OnOffer, &RANGE.shop.fit);
        room.holds([taken.length, taken.breadth, taken.face_width])
    })
}

/// The map of a card adds up to what `range` counts of the same heads, model by model.
#[test]
fn maps_add_up_to_the_range() {
    let counted = counted(20_000);
    let columns = super::all_columns();
    let made = cards(&RANGE, &SHELF, &counted, &columns, 11);
    assert_eq!((made.heads, made.looked_at), (20_000, 20_000));
    for (card, column) in made.cards.iter().zip(columns) {
        let all = card.suits.rows.iter().map(|row| row.all()).fold(Counts::default(), Counts::and);
        assert_eq!(all.heads, 20_000);
        assert_eq!(all.standard, counted.tally.count(|pattern| pattern.standard.has(column)), "{}", card.model.id);
        assert_eq!(all.on_offer, counted.tally.count(|pattern| pattern.on_offer.has(column)), "{}", card.model.id);
        let [standard, on_offer] = all.shares().expect("there are heads");
        assert_eq!((standard, on_offer), (card.own.standard, card.own.on_offer.quote));
        let words = card.suits.by_word.iter().map(|of| of.counts.on_offer as f64 / of.counts.heads.max(1) as f64);
        assert!(words.tuple_windows().all(|(a, b)| a >= b), "the best comes first");
    }
    assert_eq!(FEW.tally.heads(), super::HEADS);
}
