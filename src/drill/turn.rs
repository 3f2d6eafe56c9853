//! A task while it is played.

use super::signs::{Chosen, of_shape, signs};
use super::{Answer, Best, Done, Exercise, Habit, Mark, NoAnswer, Sign, Task, Took};
use crate::catalogue::Catalogue;
use crate::counter::{Event, Next, OnHead, Standing, Tried, next, round_minutes, weigh};
use crate::fit::{HeadSet, Quote, changed, estimate, with_pads};
use crate::plan::{Choice, Swap, Weighed};
use crate::profile::{Model, Nature, Shell, Size};
use crate::supply::{Kind, shell_that_takes, takes};
use crate::unit::Id;
use itertools::Itertools;

/// A task while it is played.
#[derive(Debug, Clone)]
pub struct Turn<'a, 't> {
    catalogue: &'a Catalogue,
    task: &'t Task<'a>,
    events: Vec<Event>,
    next: Option<Next<'a>>,
    /// How probable each shape is, where it is asked for.
    words: [Quote; 3],
    plan_minutes: f64,
    marks: Vec<Mark>,
    is_over: bool,
}

/// Rounds after which every customer has had enough.
const MOST_ROUNDS: usize = 12;

/// Other helmets that are weighed where no pads help.
const OTHERS: usize = 3;

impl<'a, 't> Turn<'a, 't> {
    /// A task that begins.
    #[must_use]
    pub fn new(catalogue: &'a Catalogue, task: &'t Task<'a>) -> Self {
        let events = task.before.clone();
        let mut turn = Self {
            catalogue,
            task,
            events,
            next: None,
            words: [Quote::default(); 3],
            plan_minutes: 0.0,
            marks: Vec::new(),
            is_over: false,
        };
        match task.exercise {
            Exercise::Stop => {}
            Exercise::Shape => turn.words = words(catalogue, task),
            Exercise::Session | Exercise::Next | Exercise::Pads => {
                turn.next = next(catalogue, &task.opening, &turn.standing());
            }
        }
        Self { plan_minutes: turn.to_come(), ..turn }
    }

    /// The task.
    #[must_use]
    pub fn task(&self) -> &'t Task<'a> {
        self.task
    }

    /// How the session stands.
    #[must_use]
    pub fn standing(&self) -> Standing {
        Standing::after(&self.events)
    }

    /// What the plan would do now; `None` where no helmet is asked for.
    #[must_use]
    pub fn next(&self) -> Option<&Next<'a>> {
        self.next.as_ref()
    }

    /// How probable a long, an intermediate and a round oval are, where the shape is asked for.
    #[must_use]
    pub fn words(&self) -> [Quote; 3] {
        self.words
    }

    /// The answers so far.
    #[must_use]
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// Whether nothing more is asked.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.is_over
    }

    /// What came of it. What was not answered counts nothing.
    #[must_use]
    pub fn done(self) -> Done {
        let standing = self.standing();
        let is_played = self.task.exercise == Exercise::Session;
        let took = Took { helmets: standing.helmets(), minutes: standing.minutes(), fits: standing.fits() };
        Done {
            number: self.task.number,
            exercise: self.task.exercise,
            level: self.task.level,
            aim: self.task.aim,
            marks: self.marks,
            plan_minutes: self.plan_minutes,
            took: is_played.then_some(took),
        }
    }

    /// Takes an answer, and returns what came of it.
    ///
    /// # Errors
    ///
    /// Where it is no answer to what was asked. Nothing is counted then.
    pub fn answer(&mut self, answer: &Answer) -> Result<&Mark, NoAnswer> {
        if self.is_over {
            return Err(NoAnswer::Over);
        }
        let mark = match (self.task.exercise, answer) {
            (Exercise::Shape, Answer::Shape(shape)) => self.shape(*shape),
            (Exercise::Stop, Answer::Stop | Answer::NoStop) => self.stop(answer),
            (Exercise::Session | Exercise::Next, Answer::Helmet { model, size, pads }) => {
                self.helmet(answer, model, size, pads)?
            }
            (Exercise::Session | Exercise::Next | Exercise::Pads, Answer::Pads(pads)) => self.pads(answer, pads)?,
            (Exercise::Session | Exercise::Next, Answer::Leave) => self.leave(answer),
            (Exercise::Pads, Answer::NoPads) => self.no_pads(answer),
            _ => return Err(NoAnswer::NotAsked),
        };
        self.marks.push(mark);
        self.marks.last().ok_or(NoAnswer::Over)
    }

    fn shape(&mut self, shape: usize) -> Mark {
        self.is_over = true;
        let words = self.words;
        let best = (0..3).max_by(|a, b| words[*a].value.total_cmp(&words[*b].value)).unwrap_or(1);
        let worth = words.get(shape).map_or(0.0, |own| own.value / words[best].value.max(f64::MIN_POSITIVE));
        Mark {
            best: Best::Shape(best, words[best]),
            signs: of_shape(best, shape),
            worth: worth.clamp(0.0, 1.0),
            ..self.mark(&Answer::Shape(shape))
        }
    }

    fn stop(&mut self, answer: &Answer) -> Mark {
        self.is_over = true;
        let is_stop = self.task.situation.is_some_and(|situation| situation.is_stop);
        let is_right = is_stop == (*answer == Answer::Stop);
        let sign = Sign { habit: Habit::IgnoresStops, slipped: !is_right };
        Mark {
            best: Best::Stop(is_stop),
            signs: if is_stop { vec![sign] } else { Vec::new() },
            worth: if is_right { 1.0 } else { 0.0 },
            ..self.mark(answer)
        }
    }

    fn helmet(&mut self, answer: &Answer, model: &Id, size: &Id, pads: &[Kind]) -> Result<Mark, NoAnswer> {
        let is_here = self.task.opening.models.contains(model);
        let is_there = !self.task.opening.absent.iter().any(|gone| gone.0 == *model && gone.1 == *size);
        let found = self.catalogue.model(model.as_str()).filter(|_| is_here && is_there);
        let found = found.and_then(|known| known.size(size).map(|(shell, size)| (known, shell, size)));
        let (known, shell, sized) = found.ok_or(NoAnswer::NoHelmet)?;
        let is_foreign = is_foreign(known, shell, sized, pads)?;
        let standing = self.standing();
        let pads = with_pads(sized.standard, pads);
        let helmet = OnHead { model: model.clone(), size: size.clone(), pads, is_swap: false };
        if is_foreign {
            return Ok(self.unsafe_answer(answer, helmet, Habit::PadsOfAnotherShell));
        }
        if standing.is_stopped(model, size) {
            return Ok(self.unsafe_answer(answer, helmet, Habit::IgnoresStops));
        }
        if standing.helmets() >= self.task.opening.tries {
            return Err(NoAnswer::Enough);
        }
        // A helmet that was on the head is known with the pads that go into it now, and no others are hoped for.
        let choice = if standing.tried.iter().any(|tried| tried.helmet.model == *model && tried.helmet.size == *size) {
            let minutes = round_minutes(self.catalogue, &standing, &helmet);
            Choice::Pads(Swap { model: known, size: size.clone(), pads, minutes })
        } else {
            Choice::Helmet { model: known, size: size.clone() }
        };
        Ok(self.try_on(answer, helmet, &choice))
    }

    fn pads(&mut self, answer: &Answer, pads: &[Kind]) -> Result<Mark, NoAnswer> {
        let standing = self.standing();
        let (on, reason) = standing.failed().ok_or(NoAnswer::NothingOn)?;
        let model = self.catalogue.model(on.model.as_str()).ok_or(NoAnswer::NoHelmet)?;
        let (shell, size) = model.size(&on.size).ok_or(NoAnswer::NoHelmet)?;
        let is_foreign = is_foreign(model, shell, size, pads)?;
        let pads = with_pads(on.pads, pads);
        let helmet = OnHead { pads, is_swap: true, ..on.clone() };
        if is_foreign {
            return Ok(self.unsafe_answer(answer, helmet, Habit::PadsOfAnotherShell));
        }
        if reason.nature() == Nature::Stop {
            return Ok(self.unsafe_answer(answer, helmet, Habit::IgnoresStops));
        }
        let minutes = round_minutes(self.catalogue, &standing, &helmet);
        let choice = Choice::Pads(Swap { model, size: on.size.clone(), pads, minutes });
        Ok(self.try_on(answer, helmet, &choice))
    }

    fn leave(&mut self, answer: &Answer) -> Mark {
        self.is_over = true;
        let weighed = if self.best() == Best::Leave { NOTHING } else { self.weighed(&[Choice::Leave])[0] };
        let signs = signs(&self.chosen(answer, None, weighed));
        Mark { weighed: Some(weighed), signs, ..self.mark(answer) }
    }

    /// Another helmet, whichever is best: it costs what the plan's pads are worth more.
    fn no_pads(&mut self, answer: &Answer) -> Mark {
        self.is_over = true;
        let weighed = match self.best() {
            Best::Try(on, _) if on.is_swap => self.another().unwrap_or_else(|| self.weighed(&[Choice::Leave])[0]),
            _ => NOTHING,
        };
        let signs = signs(&self.chosen(answer, None, weighed));
        Mark { weighed: Some(weighed), signs, ..self.mark(answer) }
    }

    /// Puts a helmet on the head, and hears what is said of it.
    fn try_on(&mut self, answer: &Answer, helmet: OnHead, choice: &Choice<'a>) -> Mark {
        let weighed = match self.best() {
            // The plan's own choice costs nothing more.
            Best::Try(on, fit) if is_alike(&on, &helmet) => Weighed { fit, ..NOTHING },
            _ => self.weighed(std::slice::from_ref(choice))[0],
        };
        let signs = signs(&self.chosen(answer, Some(&helmet), weighed));
        let reason = self.task.person.says(&helmet);
        let standing = self.standing();
        let minutes = round_minutes(self.catalogue, &standing, &helmet);
        let mark =
            Mark { helmet: Some(helmet.clone()), heard: reason, weighed: Some(weighed), signs, ..self.mark(answer) };
        self.events.push(Event::Tried(Tried { helmet, fit_probability: None, minutes, reason }));
        let is_single = self.task.exercise.is_single();
        self.is_over = is_single || reason.is_none() || self.standing().tried.len() >= MOST_ROUNDS;
        if !self.is_over {
            self.next = next(self.catalogue, &self.task.opening, &self.standing());
            self.is_over = self.is_enough();
        }
        mark
    }

    /// Whether the customer has had enough helmets, and no other pads are worth it either.
    fn is_enough(&self) -> bool {
        let swaps = matches!(self.best(), Best::Try(on, _) if on.is_swap);
        !swaps && self.standing().helmets() >= self.task.opening.tries
    }

    /// Something that can hurt somebody doesn't happen, and ends the exercise.
    fn unsafe_answer(&mut self, answer: &Answer, helmet: OnHead, habit: Habit) -> Mark {
        self.is_over = true;
        Mark { helmet: Some(helmet), worth: 0.0, signs: vec![Sign { habit, slipped: true }], ..self.mark(answer) }
    }

    fn mark(&self, answer: &Answer) -> Mark {
        Mark {
            answer: answer.clone(),
            best: self.named(self.best()),
            helmet: None,
            heard: None,
            weighed: None,
            worth: 1.0,
            signs: Vec::new(),
        }
    }

    fn best(&self) -> Best {
        let now = self.next.as_ref().and_then(|next| next.now.as_ref());
        now.map_or(Best::Leave, |now| {
            let (model, size) = (now.model.id.clone(), now.size.label.clone());
            Best::Try(OnHead { model, size, pads: now.pads, is_swap: now.is_swap }, now.fit)
        })
    }

    /// Where pads are asked for, any other helmet is "another".
    fn named(&self, best: Best) -> Best {
        match best {
            Best::Try(on, fit) if self.task.exercise == Exercise::Pads && !on.is_swap => Best::Another(on, fit),
            best => best,
        }
    }

    /// What the best of the helmets that fit most often costs, other pads in the one on the head left out.
    fn another(&self) -> Option<Weighed> {
        let plan = self.next.as_ref()?.plan.as_ref()?;
        let standing = self.standing();
        let (on, _) = standing.failed()?;
        let ranked = plan.ranking.iter().map(|ranked| &plan.candidates[ranked.candidate]);
        let others = ranked.filter(|known| known.model.id != on.model || known.size.label != on.size).take(OTHERS);
        let choices = others.map(|known| Choice::Helmet { model: known.model, size: known.size.label.clone() });
        let weighed = self.weighed(&choices.collect_vec()).into_iter();
        weighed.min_by(|a, b| a.more_minutes.value.total_cmp(&b.more_minutes.value))
    }

    fn weighed(&self, choices: &[Choice<'a>]) -> Vec<Weighed> {
        let weighed = weigh(self.catalogue, &self.task.opening, &self.standing(), choices);
        weighed.unwrap_or_else(|| vec![NOTHING; choices.len()])
    }

    /// What the best plan is expected to cost from here on, going without counted.
    fn to_come(&self) -> f64 {
        let plan = self.next.as_ref().and_then(|next| next.plan.as_ref());
        let go_without = self.catalogue.shop.minutes.go_without;
        plan.map_or(0.0, |plan| plan.totals.minutes.value + go_without * plan.totals.no_fit.value)
    }

    fn chosen<'s>(&'s self, answer: &'s Answer, helmet: Option<&'s OnHead>, weighed: Weighed) -> Chosen<'s, 'a> {
        Chosen {
            catalogue: self.catalogue,
            exercise: self.task.exercise,
            standing: self.standing(),
            best: self.best(),
            answer,
            helmet,
            more: weighed.more_minutes,
        }
    }
}

fn words(catalogue: &Catalogue, task: &Task<'_>) -> [Quote; 3] {
    let Some(customer) = task.opening.customer(catalogue) else { return [Quote::default(); 3] };
    estimate(catalogue, &customer.head, &HeadSet::judges(catalogue, &customer)).words
}

/// What costs nothing more.
const NOTHING: Weighed = {
    let none = Quote { value: 0.0, error: 0.0 };
    Weighed { fit: none, more_minutes: none, more_tries: none, more_without: none }
};

/// Whether pads are among those that another shell of the model takes, and this one doesn't.
fn is_foreign(model: &Model, shell: &Shell, size: &Size, pads: &[Kind]) -> Result<bool, NoAnswer> {
    let mut is_foreign = false;
    for &(zone, mm) in pads.iter().filter(|pad| !takes(shell, size, **pad)) {
        let is_elsewhere = shell_that_takes(model, shell, (zone, mm)).is_some()
            || model.sizes().any(|(_, other)| other.standard.get(zone).is_some_and(|own| (own - mm).abs() < 1e-9));
        if !is_elsewhere {
            return Err(NoAnswer::NoPad { zone, mm });
        }
        is_foreign = true;
    }
    Ok(is_foreign)
}

/// A helmet is the same whatever pads it starts with; pads in the helmet on the head are not.
fn is_alike(a: &OnHead, b: &OnHead) -> bool {
    let is_same = a.model == b.model && a.size == b.size && a.is_swap == b.is_swap;
    is_same && (!a.is_swap || changed(&a.pads, &b.pads).next().is_none())
}
