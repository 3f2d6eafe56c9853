//! The tasks of a run, one after the other.

use super::person::{is_stop, near, truth};
use super::strata::{Strata, turn};
use super::{Exercise, Habit, Level, Past, Person, SITUATIONS, Situation, Spread, Task};
use crate::catalogue::Catalogue;
use crate::counter::{Event, OnHead, Opening, Standing, Tried, round_minutes};
use crate::fit::{Candidate, Customer, HeadSet, estimate, foam, verdict};
use crate::head::{Dimensions, EffectiveHead, PARTICLES, Population};
use crate::journal::Day;
use crate::plan::Lead;
use crate::profile::{Axis, FitRules, Model, Nature, Reason};
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
const MOST_TRIED: u32 = 200_000;

/// Rounds of all exercises after which habits are looked for that have not shown in either way.
const LOOKED_FOR_AFTER: u64 = 2;

/// How far beyond the limit a face is that was made for a complaint about cheeks, mm: at least, and at most.
const BEYOND_BY: [f64; 2] = [0.5, 4.0];

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
            Exercise::Session => self.session(number, aim),
            Exercise::Next | Exercise::Pads => self.failed(exercise, number, aim),
            Exercise::Shape => self.shape(number, aim),
            Exercise::Stop => self.stop(number, aim),
        };
        Some(Task { aim, ..task })
    }

    /// The habit whose like comes again now, or, after some rounds, one that nothing has been seen of yet. Never two in a
    /// row, so that the others have their turn.
    fn aim(&self, number: u64, past: &Past) -> Option<Habit> {
        if self.wanted.again == Again::Never || number.is_multiple_of(2) {
            return None;
        }
        let is_asked = |habit: &Habit| self.exercise_for(*habit, number).is_some();
        let due = past.due(&self.catalogue.shop.practice, self.wanted.day, number).into_iter().find(is_asked);
        let unseen = || Habit::ALL.into_iter().filter(|habit| !past.has_met(*habit)).find(is_asked);
        due.or_else(|| if self.round(number) > LOOKED_FOR_AFTER { unseen() } else { None })
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

    fn session(&self, number: u64, aim: Option<Habit>) -> Task<'a> {
        self.with(Exercise::Session, number, self.person(number, aim.and_then(Habit::shape)))
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
        let customer = Customer { worn: Vec::new(), ..customer };
        let heads = HeadSet::draw(self.catalogue, &customer, PARTICLES / 4, 0);
        estimate(self.catalogue, &customer.head, &[heads]).words.map(|word| word.value)
    }

    fn stop(&self, number: u64, aim: Option<Habit>) -> Task<'a> {
        let is_fitting = |situation: &&Situation| aim.is_none() || situation.is_stop;
        let fitting = SITUATIONS.iter().filter(is_fitting).copied().collect_vec();
        // As many rounds of all exercises have gone by, and one situation has come in each.
        let at = self.round(number);
        let situation = turn(&fitting, self.wanted.seed, "practice situations", at);
        Task { situation, ..self.with(Exercise::Stop, number, self.person(number, None)) }
    }

    /// A helmet with its standard pads that failed. The reasons come in turn, on heads as they come.
    fn failed(&self, exercise: Exercise, number: u64, aim: Option<Habit>) -> Task<'a> {
        let seed = self.wanted.seed;
        let reasons = Reason::geometric().iter().copied().chain([Reason::TurnsOnHead]).collect_vec();
        let reason = match aim {
            Some(Habit::SizeUpForCheeks) => Some(Reason::CheeksSqueeze),
            Some(Habit::IgnoresStops) => Some(Reason::TurnsOnHead),
            Some(_) => None,
            None => turn(&reasons, seed, exercise.id(), self.round(number)),
        };
        let world = self.world(number);
        let Some((head, helmet)) = self.failure(&world, (exercise, number), reason, aim) else {
            return self.session(number, aim);
        };
        let level = self.wanted.level;
        let shop = &self.catalogue.shop;
        let is_at_cheeks = reason.is_some_and(|reason| matches!(reason, Reason::CheeksSqueeze | Reason::CheeksLoose));
        let face_width = level.face_width(shop).filter(|_| is_at_cheeks);
        let taken = level.taken(shop).into_iter().chain(face_width).collect_vec();
        let who = (self.wanted.population, level);
        let person = Person::new(world, who, &self.wanted.models, (head, &taken), (seed, number));
        let said = person.says(&helmet);
        let mut task = self.with(exercise, number, person);
        let minutes = round_minutes(self.catalogue, &Standing::default(), &helmet);
        task.before = vec![Event::Tried(Tried { helmet, fit_probability: None, minutes, reason: said })];
        task
    }

    /// A head, and a helmet with its standard pads that fails on it as wanted; any that fails where none does so. Nothing
    /// where no helmet fails.
    fn failure(
        &self,
        world: &World<'a>,
        (exercise, number): (Exercise, u64),
        reason: Option<Reason>,
        aim: Option<Habit>,
    ) -> Option<(Dimensions, OnHead)> {
        let mut chance = Chance::new(self.wanted.seed, "practice failures", number);
        let models = self.fitting(aim);
        let outline = self.catalogue.shop.fit.outline;
        let mut found = None;
        for _ in 0..MOST_TRIED {
            let drawn = self.strata.any(&mut chance);
            let helmet = near(&models, drawn, &mut chance)?;
            let as_it_is = world.helmet(&helmet.model, &helmet.size)?;
            let head = with_face(drawn, as_it_is, reason, &self.catalogue.shop.fit, &mut chance);
            let room = outline.effective(head);
            let true_of_it = truth(world, (&helmet.model, &helmet.size), helmet.pads, room)?;
            let is_absent = self.wanted.absent.iter().any(|gone| gone.0 == helmet.model && gone.1 == helmet.size);
            // A helmet without other pads is no question about pads.
            let is_asked = exercise != Exercise::Pads || has_other_pads(as_it_is);
            if true_of_it.fits() || is_absent || !is_asked {
                continue;
            }
            let is_wanted = match reason {
                Some(reason) if reason.nature() == Nature::Stop => is_stop(&true_of_it),
                Some(reason) => true_of_it.reason == Some(reason) && !is_stop(&true_of_it),
                None => !is_stop(&true_of_it),
            };
            if is_wanted && self.is_to_the_point(world, &helmet, room, aim) {
                return Some((head, helmet));
            }
            found = found.or(Some((head, helmet)));
        }
        found
    }

    /// Whether a failed helmet can bring a habit to light: by what truly helps.
    fn is_to_the_point(&self, world: &World<'a>, helmet: &OnHead, room: EffectiveHead, aim: Option<Habit>) -> bool {
        let is_helped = || {
            let known = world.helmet(&helmet.model, &helmet.size);
            known.is_some_and(|known| verdict(known, room, &self.catalogue.shop.fit).best().fits())
        };
        match aim {
            Some(Habit::HelmetBeforePads | Habit::PadsAgainst | Habit::PadsOfAnotherShell) => is_helped(),
            Some(Habit::PadsBeyondHelp | Habit::WrongWay) => !is_helped(),
            _ => true,
        }
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

    fn person(&self, number: u64, shape: Option<usize>) -> Person<'a> {
        self.person_of((number, 0), shape, &self.world(number))
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
        let head = self.strata.head(spread, shape, (seed, number));
        let taken = level.taken(&self.catalogue.shop);
        Person::new(Rc::clone(world), (population, level), &self.wanted.models, (head, &taken), (seed, number))
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

/// Whether other pads than the standard ones are on offer for a helmet.
fn has_other_pads(helmet: &Candidate<'_>) -> bool {
    helmet.axes.iter().flatten().any(|table| table.options.len() > 1)
}

/// The head with a face that is as wide, or as narrow, as a complaint about the cheeks takes, as W = cavity − foam × (1 −
/// strain): where a range is cut for average faces, hardly any other makes one. Other complaints leave it as it is.
fn with_face(
    head: Dimensions,
    helmet: &Candidate<'_>,
    reason: Option<Reason>,
    rules: &FitRules,
    chance: &mut Chance,
) -> Dimensions {
    let (limit, way) = match reason {
        Some(Reason::CheeksSqueeze) => (rules.cheeks.tight_above, 1.0),
        Some(Reason::CheeksLoose) => (rules.cheeks.light_below, -1.0),
        _ => return head,
    };
    let [_, _, cavity] = helmet.cavity(rules);
    let at_limit = cavity - foam(&helmet.size.standard, Axis::FaceWidth) * (1.0 - limit);
    let by = BEYOND_BY[0] + (BEYOND_BY[1] - BEYOND_BY[0]) * chance.uniform();
    let beyond = at_limit + way * by;
    let is_beyond = (head.face_width - at_limit) * way > 0.0;
    Dimensions { face_width: if is_beyond { head.face_width } else { beyond }, ..head }
}
