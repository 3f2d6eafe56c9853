//! Trainees who always do the same.

use itertools::Itertools;
use lidladder::catalogue::Catalogue;
use lidladder::counter::{Next, OnHead, Standing, next};
use lidladder::drill::{Answer, Done, Exercise, Habit, Met, Paper, Past, Turn};
use lidladder::fit::{Candidate, PadSet, changed, foam};
use lidladder::head::Measure;
use lidladder::profile::{Axis, Model, Nature, Reason, Size, Zone};
use lidladder::simulate::Chance;
use lidladder::supply::on_offer;

/// Somebody who practises.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Trainee {
    /// Does what the plan says.
    Planner,
    /// Takes the same models in the same order for everybody, in the size of the tape, and hears no reasons.
    Popular,
    /// Does what the plan says, but for one habit.
    With(Habit),
}

impl Trainee {
    /// Takes so many tasks of a paper. `slips` is how often any answer is one that the plan wouldn't give, by chance.
    pub(crate) fn takes(self, catalogue: &Catalogue, paper: &Paper<'_>, tasks: u64, slips: f64) -> Vec<Done> {
        let mut past = Past::default();
        let mut all = Vec::new();
        for number in 1..=tasks {
            let task = paper.task(number, &past).expect("something is asked");
            let mut turn = Turn::new(catalogue, &task);
            let mut chance = Chance::new(paper.wanted().seed, "trainee", number);
            while !turn.is_over() {
                let answer = self.answer(catalogue, &turn);
                let answer = if chance.happens(slips) { careless(catalogue, &turn, &mut chance) } else { answer };
                turn.answer(&answer).unwrap_or_else(|none| panic!("{none}: {answer:?} to {:?}", task.exercise));
            }
            let done = turn.done();
            let signs = done.marks.iter().flat_map(|mark| &mark.signs);
            past.0.extend(signs.map(|sign| Met { day: paper.wanted().day, number, sign: *sign }));
            all.push(done);
        }
        all
    }

    fn answer(self, catalogue: &Catalogue, turn: &Turn<'_, '_>) -> Answer {
        match self {
            Self::Planner => planned(turn),
            Self::Popular => popular(catalogue, turn),
            Self::With(habit) => slip(habit, catalogue, turn).unwrap_or_else(|| planned(turn)),
        }
    }
}

/// What the plan says.
fn planned(turn: &Turn<'_, '_>) -> Answer {
    let exercise = turn.task().exercise;
    if exercise == Exercise::Stop {
        let is_stop = turn.task().situation.expect("something is seen").is_stop;
        return if is_stop { Answer::Stop } else { Answer::NoStop };
    }
    let next = turn.next().expect("it is planned");
    if exercise == Exercise::Shape {
        return Answer::Shape(shape(next));
    }
    match &next.now {
        None if exercise == Exercise::Pads => Answer::NoPads,
        None => Answer::Leave,
        Some(now) if now.is_swap => {
            let standing = turn.standing();
            let (on, _) = standing.failed().expect("a helmet is on");
            Answer::Pads(changed(&on.pads, &now.pads).collect())
        }
        Some(_) if exercise == Exercise::Pads => Answer::NoPads,
        Some(now) => fetch(now.model, now.size, &now.pads),
    }
}

fn shape(next: &Next<'_>) -> usize {
    let words = next.head.words.map(|word| word.value);
    (0..3).max_by(|a, b| words[*a].total_cmp(&words[*b])).expect("three words")
}

fn fetch(model: &Model, size: &Size, pads: &PadSet) -> Answer {
    Answer::Helmet { model: model.id.clone(), size: size.label.clone(), pads: changed(&size.standard, pads).collect() }
}

/// Models in the order of their ids, each in the size whose label has the tape's reading, or comes next to it.
fn popular(catalogue: &Catalogue, turn: &Turn<'_, '_>) -> Answer {
    match turn.task().exercise {
        Exercise::Stop => return Answer::NoStop,
        Exercise::Shape => return Answer::Shape(1),
        Exercise::Pads => return Answer::NoPads,
        Exercise::Session | Exercise::Next => {}
    }
    let standing = turn.standing();
    let tape = turn.task().opening.head.readings.iter().find(|read| read.measure == Measure::Circumference);
    let tape = tape.expect("the tape is always taken").value;
    let models = turn.task().opening.models.iter().filter_map(|id| catalogue.model(id.as_str()));
    let untried = models.filter(|model| standing.tried.iter().all(|tried| tried.helmet.model != model.id));
    match untried.take(1).next() {
        Some(model) if standing.helmets() < turn.task().opening.tries => {
            let off = |size: &&Size| (size.centre() - tape).abs();
            let size = model.sizes().map(|(_, size)| size).min_by(|a, b| off(a).total_cmp(&off(b)));
            let size = size.expect("every model has sizes");
            fetch(model, size, &size.standard)
        }
        _ => Answer::Leave,
    }
}

/// Something that is no good idea.
fn careless(catalogue: &Catalogue, turn: &Turn<'_, '_>, chance: &mut Chance) -> Answer {
    match turn.task().exercise {
        Exercise::Stop => chance.one_of(&[Answer::Stop, Answer::NoStop]).expect("two").clone(),
        Exercise::Shape => {
            chance.one_of(&[Answer::Shape(0), Answer::Shape(1), Answer::Shape(2)]).expect("three").clone()
        }
        Exercise::Pads => Answer::NoPads,
        Exercise::Session | Exercise::Next => {
            let id = chance.one_of(&turn.task().opening.models).expect("there are models");
            let model = catalogue.model(id.as_str()).expect("it is known");
            let sizes = model.sizes().collect_vec();
            let (_, size) = chance.one_of(&sizes).expect("it has sizes");
            fetch(model, size, &size.standard)
        }
    }
}

/// What somebody with a habit does where it shows; `None` where they do what the plan says.
fn slip(habit: Habit, catalogue: &Catalogue, turn: &Turn<'_, '_>) -> Option<Answer> {
    let exercise = turn.task().exercise;
    if exercise == Exercise::Stop {
        return (habit == Habit::IgnoresStops).then_some(Answer::NoStop);
    }
    let standing = turn.standing();
    let next = turn.next()?;
    if exercise == Exercise::Shape {
        let seen = shape(next);
        let taken_for =
            (0..3).find(|taken_for| Habit::of_shapes(seen, *taken_for) == Some(habit) && taken_for.abs_diff(seen) == 1);
        return taken_for.map(Answer::Shape);
    }
    let last = standing.failed().map(|(on, reason)| (on.clone(), reason));
    match habit {
        Habit::IgnoresStops => {
            let (on, _) = last.filter(|(_, reason)| reason.nature() == Nature::Stop)?;
            Some(Answer::Pads(other_pads(catalogue, &on, 1.0)?))
        }
        Habit::PadsOfAnotherShell => match planned(turn) {
            Answer::Pads(pads) => foreign(catalogue, &last?.0, &pads).map(Answer::Pads),
            _ => None,
        },
        Habit::SizeUpForCheeks => {
            let (on, _) = last.filter(|(_, reason)| *reason == Reason::CheeksSqueeze)?;
            let model = catalogue.model(on.model.as_str())?;
            let sizes = model.sizes().map(|(_, size)| size).collect_vec();
            let at = sizes.iter().position(|size| size.label == on.size)?;
            (exercise != Exercise::Pads).then(|| sizes.get(at + 1).map(|size| fetch(model, size, &size.standard)))?
        }
        Habit::PadsAgainst => match planned(turn) {
            Answer::Pads(_) => {
                let (on, reason) = last?;
                let way: i8 = reason.direction()?.into_iter().find(|way| *way != 0)?;
                Some(Answer::Pads(other_pads(catalogue, &on, f64::from(way))?))
            }
            _ => None,
        },
        Habit::HelmetBeforePads => {
            if exercise == Exercise::Pads {
                return Some(Answer::NoPads);
            }
            let now = next.now.as_ref().filter(|now| now.is_swap)?;
            let plan = next.plan.as_ref()?;
            let other = plan.ranking.iter().map(|ranked| &plan.candidates[ranked.candidate]);
            let other = other.filter(|known| known.model.id != now.model.id).take(1).next()?;
            Some(fetch(other.model, other.size, &other.size.standard))
        }
        Habit::PadsBeyondHelp => {
            let (on, reason) = last.filter(|(_, reason)| reason.nature() == Nature::Geometric)?;
            let way: i8 = reason.direction()?.into_iter().find(|way| *way != 0)?;
            let rounds = standing.tried.iter().filter(|tried| tried.helmet.model == on.model).count();
            if rounds > 2 || matches!(planned(turn), Answer::Pads(_)) {
                return None;
            }
            Some(Answer::Pads(other_pads(catalogue, &on, -f64::from(way))?))
        }
        Habit::GivesUpEarly => (exercise != Exercise::Pads && last.is_some()).then_some(Answer::Leave),
        Habit::StartsTooLarge | Habit::StartsTooSmall if standing.tried.is_empty() => {
            let now = next.now.as_ref()?;
            let sizes = now.model.sizes().map(|(_, size)| size).collect_vec();
            let at = sizes.iter().position(|size| size.label == now.size.label)?;
            let at = if habit == Habit::StartsTooLarge { at.checked_add(1)? } else { at.checked_sub(1)? };
            sizes.get(at).map(|size| fetch(now.model, size, &size.standard))
        }
        Habit::WrongWay => {
            let (on, reason) = last?;
            let wanted = reason.direction()?;
            let now = next.now.as_ref().filter(|now| !now.is_swap)?;
            worse(catalogue, turn, &on, wanted)
                .filter(|_| now.model.id.as_str() != "")
                .filter(|_| exercise != Exercise::Pads)
        }
        habit if habit.shape().is_some() && standing.tried.is_empty() => {
            let now = next.now.as_ref()?;
            let words = catalogue.shop.words;
            let own = |model: &Model| {
                let known = Candidate::of_models([model], catalogue);
                known.first().map(|known| words.place(known.nominal.shape_index))
            };
            let best = own(now.model)?;
            let taken_for = (0..3)
                .find(|taken_for| Habit::of_shapes(best, *taken_for) == Some(habit) && taken_for.abs_diff(best) == 1)?;
            // The best that the plan would have without models of any other shape.
            let mut opening = turn.task().opening.clone();
            opening.models.retain(|id| catalogue.model(id.as_str()).and_then(own) == Some(taken_for));
            let other = next_of(catalogue, &opening)?;
            Some(other)
        }
        _ => None,
    }
}

fn next_of(catalogue: &Catalogue, opening: &lidladder::counter::Opening) -> Option<Answer> {
    let now = next(catalogue, opening, &Standing::default())?.now?;
    Some(fetch(now.model, now.size, &now.pads))
}

/// A pad of the complaint's zone, thicker or thinner than the one that is in.
fn other_pads(catalogue: &Catalogue, on: &OnHead, way: f64) -> Option<Vec<(Zone, f64)>> {
    let (shell, size) = catalogue.model(on.model.as_str())?.size(&on.size)?;
    [Zone::Sides, Zone::Rear, Zone::Brow, Zone::Cheeks].into_iter().find_map(|zone| {
        let own = (*on.pads.get(zone))?;
        let other = on_offer(shell, size, zone).into_iter().find(|mm| (mm - own) * way > 0.5)?;
        Some(vec![(zone, other)])
    })
}

/// The pads nearest to these that another shell takes, and this one doesn't.
fn foreign(catalogue: &Catalogue, on: &OnHead, pads: &[(Zone, f64)]) -> Option<Vec<(Zone, f64)>> {
    let model = catalogue.model(on.model.as_str())?;
    let (shell, size) = model.size(&on.size)?;
    let (zone, wanted) = *pads.first()?;
    let own = on_offer(shell, size, zone);
    let others = model.shells.iter().filter(|other| other.id != shell.id).flat_map(|other| &other.pads);
    let others = others.filter(|pad| pad.zone == zone && own.iter().all(|own| (own - pad.thickness).abs() > 1e-9));
    let nearest = others.map(|pad| pad.thickness).min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))?;
    Some(vec![(zone, nearest)])
}

/// A helmet of another model that is worse in what was complained about.
fn worse(catalogue: &Catalogue, turn: &Turn<'_, '_>, on: &OnHead, wanted: [i8; 3]) -> Option<Answer> {
    let outline = catalogue.shop.fit.outline;
    let of = |model: &Model, size: &Size| {
        Candidate::of_size(model, &size.label, catalogue).map(|known| known.nominal.dimensions(outline))
    };
    let model = catalogue.model(on.model.as_str())?;
    let own = of(model, model.size(&on.size)?.1)?;
    let _ = foam(&on.pads, Axis::Length);
    let all = turn.task().opening.models.iter().filter_map(|id| catalogue.model(id.as_str()));
    let all =
        all.filter(|other| other.id != model.id).flat_map(|other| other.sizes().map(move |(_, size)| (other, size)));
    let worse = all.filter_map(|(other, size)| {
        let next = of(other, size)?;
        let by: f64 = (0..3).map(|axis| (own[axis] - next[axis]) * f64::from(wanted[axis])).sum();
        (by > 4.0).then_some((by, other, size))
    });
    worse.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, other, size)| fetch(other, size, &size.standard))
}
