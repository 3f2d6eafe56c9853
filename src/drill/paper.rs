//! The tasks of a run, one after the other.

use super::strata::{Strata, turn};
use super::{Exercise, Habit, Level, Past, Person, SITUATIONS, Situation, Spread, Task};
use crate::catalogue::Catalogue;
use crate::counter::{Event, OnHead, Opening, Standing, Tried, round_minutes};
use crate::fit::{Customer, HeadSet, estimate};
use crate::head::{PARTICLES, Population};
use crate::journal::Day;
use crate::plan::Lead;
use crate::profile::{Model, Nature, Reason};
use crate::simulate::{Chance, World};
use crate::unit::Id;
use itertools::Itertools;
use std::rc::Rc;

/// What somebody wants to practise.
#[derive(Debug, Clone)]
pub struct Wanted<'a> {
    /// Whose heads come in.
    pub population: &'a Population,
    /// The models that there are.
    pub models: Vec<&'a Model>,
    /// Sizes of them that are not there, as `(model, size)`.
    pub absent: Vec<(Id, Id)>,
    /// What is asked, each in its turn; at least one.
    pub exercises: Vec<Exercise>,
    /// How hard it is.
    pub level: Level,
    /// Which customers come in.
    pub spread: Spread,
    /// Whether slips come again.
    pub again: Again,
    /// Today.
    pub day: Day,
    /// Seed of every draw.
    pub seed: u64,
}

/// Whether slips come again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Again {
    /// After some customers, and some days later.
    Due,
    /// Never: the same paper for everybody.
    Never,
}

/// Tasks, one after the other.
#[derive(Debug, Clone)]
pub struct Paper<'a> {
    catalogue: &'a Catalogue,
    wanted: Wanted<'a>,
    strata: Strata,
}

/// Heads that are drawn for a helmet that fails as wanted.
const MOST_TRIED: u64 = 2000;

/// Heads that are drawn for one of a clear shape.
const MOST_UNCLEAR: u64 = 40;

impl<'a> Paper<'a> {
    /// A paper for somebody.
    #[must_use]
    pub fn new(catalogue: &'a Catalogue, wanted: Wanted<'a>) -> Self {
        let strata = Strata::of(wanted.population, catalogue.shop.words);
        Self { catalogue, wanted, strata }
    }

    /// What was wanted.
    #[must_use]
    pub fn wanted(&self) -> &Wanted<'a> {
        &self.wanted
    }

    /// The task of a number, from 1, for somebody with this past; `None` where nothing is asked at all. The same for the same
    /// past, and for everybody where nothing comes again.
    #[must_use]
    pub fn task(&self, number: u64, past: &Past) -> Option<Task<'a>> {
        let aim = self.aim(number, past);
        let exercise = match aim {
            Some(habit) => self.exercise_for(habit, number)?,
            None => turn(&self.wanted.exercises, self.wanted.seed, "practice exercises", number)?,
        };
        let task = match exercise {
            Exercise::Session => self.session(number),
            Exercise::Next | Exercise::Pads => self.failed(exercise, number, aim),
            Exercise::Shape => self.shape(number, aim),
            Exercise::Stop => self.stop(number, aim),
        };
        Some(Task { aim, ..task })
    }

    /// The habit whose like comes again now. Never two in a row, so that the others have their turn.
    fn aim(&self, number: u64, past: &Past) -> Option<Habit> {
        if self.wanted.again == Again::Never || number.is_multiple_of(2) {
            return None;
        }
        let due = past.due(&self.catalogue.shop.practice, self.wanted.day, number);
        due.into_iter().find(|habit| self.exercise_for(*habit, number).is_some())
    }

    /// An exercise that brings a habit to light, of those that are wanted.
    fn exercise_for(&self, habit: Habit, number: u64) -> Option<Exercise> {
        use Exercise as E;
        let fitting: &[Exercise] = match habit {
            Habit::IgnoresStops => &[E::Stop, E::Next],
            Habit::PadsOfAnotherShell | Habit::PadsAgainst => &[E::Pads, E::Next],
            Habit::SizeUpForCheeks | Habit::WrongWay => &[E::Next],
            Habit::HelmetBeforePads | Habit::PadsBeyondHelp => &[E::Next, E::Pads],
            Habit::StartsTooLarge | Habit::StartsTooSmall | Habit::GivesUpEarly => &[E::Session],
            _ => &[E::Shape, E::Session],
        };
        let fitting = fitting.iter().filter(|exercise| self.wanted.exercises.contains(exercise)).copied().collect_vec();
        turn(&fitting, self.wanted.seed, "practice again", number)
    }

    fn session(&self, number: u64) -> Task<'a> {
        self.with(Exercise::Session, number, self.person(number))
    }

    /// A head whose shape is clear, as far as one is found.
    fn shape(&self, number: u64, aim: Option<Habit>) -> Task<'a> {
        let wanted = aim.and_then(Habit::shape);
        let world = self.world(number);
        let draw = |at: u64| self.with(Exercise::Shape, number, self.person_of((number, at), wanted, &world));
        let clear = |task: &Task<'_>| {
            let words = self.words(task);
            let best = words.iter().position_max_by(|a, b| a.total_cmp(b)).unwrap_or(1);
            if wanted.is_none_or(|wanted| wanted == best) { words[best] } else { 0.0 }
        };
        let mut best = draw(0);
        let mut clearest = clear(&best);
        for at in 1..MOST_UNCLEAR {
            if clearest >= self.catalogue.shop.practice.clear_shape {
                break;
            }
            let next = draw(at);
            let clearness = clear(&next);
            if clearness > clearest {
                (best, clearest) = (next, clearness);
            }
        }
        best
    }

    /// How probable each shape is, roughly.
    fn words(&self, task: &Task<'_>) -> [f64; 3] {
        let Some(customer) = task.opening.customer(self.catalogue) else { return [0.0; 3] };
        let heads = HeadSet::draw(self.catalogue, &Customer { worn: Vec::new(), ..customer.clone() }, PARTICLES / 4, 0);
        estimate(self.catalogue, &customer.head, &[heads]).words.map(|word| word.value)
    }

    fn stop(&self, number: u64, aim: Option<Habit>) -> Task<'a> {
        let is_fitting = |situation: &&Situation| aim.is_none() || situation.is_stop;
        let fitting = SITUATIONS.iter().filter(is_fitting).copied().collect_vec();
        // As many rounds of all exercises have gone by, and one situation has come in each.
        let at = self.round(number);
        let situation = turn(&fitting, self.wanted.seed, "practice situations", at);
        Task { situation, ..self.with(Exercise::Stop, number, self.person(number)) }
    }

    /// A helmet with its standard pads that failed. The reasons come in turn.
    fn failed(&self, exercise: Exercise, number: u64, aim: Option<Habit>) -> Task<'a> {
        let seed = self.wanted.seed;
        let reasons = Reason::geometric().iter().copied().chain([Reason::TurnsOnHead]).collect_vec();
        let reason = match aim {
            Some(Habit::SizeUpForCheeks) => Some(Reason::CheeksSqueeze),
            Some(Habit::IgnoresStops) => Some(Reason::TurnsOnHead),
            Some(_) => None,
            None => turn(&reasons, seed, exercise.id(), self.round(number)),
        };
        let mut chance = Chance::new(seed, "practice failures", number);
        let world = self.world(number);
        let mut found = None;
        for at in 0..MOST_TRIED {
            let person = self.person_of((number, at), None, &world);
            let Some(helmet) = person.near(&self.fitting(aim), &mut chance) else { break };
            let Some(said) = person.says(&helmet) else { continue };
            let is_absent = self.wanted.absent.iter().any(|gone| gone.0 == helmet.model && gone.1 == helmet.size);
            let is_wanted = match reason {
                Some(reason) if reason.nature() == Nature::Stop => said.nature() == Nature::Stop,
                Some(reason) => said == reason,
                None => said.nature() == Nature::Geometric,
            };
            let is_best = is_wanted && !is_absent && answers(&person, &helmet, aim);
            if is_best || found.is_none() {
                found = Some((person, helmet, said));
            }
            if is_best {
                break;
            }
        }
        let Some((person, helmet, said)) = found else { return self.session(number) };
        let mut task = self.with(exercise, number, person);
        let minutes = round_minutes(self.catalogue, &Standing::default(), &helmet);
        task.before = vec![Event::Tried(Tried { helmet, fit_probability: None, minutes, reason: Some(said) })];
        task
    }

    /// The models that bring a habit to light.
    fn fitting(&self, aim: Option<Habit>) -> Vec<&'a Model> {
        let several =
            |model: &&&Model| model.shells.len() > 1 && model.shells.iter().all(|shell| !shell.pads.is_empty());
        let fitting = self.wanted.models.iter().filter(several).copied().collect_vec();
        match aim {
            Some(Habit::PadsOfAnotherShell) if !fitting.is_empty() => fitting,
            _ => self.wanted.models.clone(),
        }
    }

    /// How often everything that is wanted has come in its turn, this time included.
    fn round(&self, number: u64) -> u64 {
        let exercises = self.wanted.exercises.len().max(1) as u64;
        (number - 1) / exercises + 1
    }

    fn person(&self, number: u64) -> Person<'a> {
        self.person_of((number, 0), None, &self.world(number))
    }

    /// The helmets that the customer of a number meets: each with errors of its own, as plans count it.
    fn world(&self, number: u64) -> Rc<World<'a>> {
        let seed = Chance::new(self.wanted.seed, "practice helmets", number).number();
        Rc::new(World::drawn(self.catalogue, 1.0, seed))
    }

    /// The customer of a number; more than one is drawn where not everybody will do.
    fn person_of(&self, (number, at): (u64, u64), shape: Option<usize>, world: &Rc<World<'a>>) -> Person<'a> {
        let Wanted { population, spread, level, seed, .. } = self.wanted;
        // What is drawn for one customer is nobody else's.
        let seed = if at == 0 { seed } else { Chance::new(seed, "practice once more", at).number() };
        let head = self.strata.head(population, spread, shape, (seed, number));
        Person::new(Rc::clone(world), population, level, &self.wanted.models, head, (seed, number))
    }

    fn with(&self, exercise: Exercise, number: u64, person: Person<'a>) -> Task<'a> {
        let wanted = &self.wanted;
        let opening = Opening {
            day: wanted.day,
            seed: wanted.seed,
            head: person.known.clone(),
            models: wanted.models.iter().map(|model| model.id.clone()).collect(),
            absent: wanted.absent.clone(),
            tries: self.catalogue.shop.session.tries,
            minutes: None,
            lead: Lead::ComputedOnly,
        };
        Task { number, exercise, level: wanted.level, aim: None, person, opening, before: Vec::new(), situation: None }
    }
}

/// Whether a failed helmet can bring a habit to light: by what truly helps.
fn answers(person: &Person<'_>, helmet: &OnHead, aim: Option<Habit>) -> bool {
    let is_helped = || person.best(&helmet.model, &helmet.size).is_some_and(|best| best.fits());
    match aim {
        Some(Habit::HelmetBeforePads | Habit::PadsAgainst | Habit::PadsOfAnotherShell) => is_helped(),
        Some(Habit::PadsBeyondHelp | Habit::WrongWay) => !is_helped(),
        _ => true,
    }
}
