//! What an answer says of habits.

use super::{Answer, Best, Exercise, Habit, Sign};
use crate::catalogue::Catalogue;
use crate::counter::{OnHead, Standing};
use crate::fit::{Candidate, Quote, foam};
use crate::profile::{Axis, Nature, Reason};

/// An answer with what it was given to.
pub(super) struct Chosen<'s, 'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) exercise: Exercise,
    /// Before the answer.
    pub(super) standing: Standing,
    pub(super) best: Best,
    pub(super) answer: &'s Answer,
    /// What goes on the head, if something does.
    pub(super) helmet: Option<&'s OnHead>,
    /// Minutes that it costs more than the best.
    pub(super) more: Quote,
}

/// A label's range is two whole centimetres wide: from one size to the next, mm of circumference.
const HALF_A_SIZE: f64 = 10.0;

/// A helmet that gives less room than this on an axis is worse there, mm.
const WORSE_BY: f64 = 1.0;

/// The signs of an answer that went on the head, or let the customer go. A slip is told as the first habit that it is, and
/// then says nothing of others. What looks like a slip but costs little says nothing.
pub(super) fn signs(chosen: &Chosen<'_, '_>) -> Vec<Sign> {
    let is_costly =
        chosen.more.value >= chosen.catalogue.shop.practice.slip_from && chosen.more.value > chosen.more.error;
    let looks = Habit::ALL.into_iter().filter_map(|habit| Some((habit, chosen.looks_like(habit)?)));
    let looks: Vec<_> = looks.collect();
    let slip = looks.iter().find(|(_, is_slip)| *is_slip && is_costly);
    match slip {
        Some((habit, _)) => vec![Sign { habit: *habit, slipped: true }],
        None => {
            let fine = looks.into_iter().filter(|(_, is_slip)| !is_slip);
            fine.map(|(habit, _)| Sign { habit, slipped: false }).collect()
        }
    }
}

/// The signs of a named shape (0 long, 1 intermediate, 2 round).
pub(super) fn of_shape(best: usize, named: usize) -> Vec<Sign> {
    match Habit::of_shapes(best, named) {
        Some(habit) => vec![Sign { habit, slipped: true }],
        None => shapes_of(best).map(|habit| Sign { habit, slipped: false }).collect(),
    }
}

/// The habits that heads of a shape could bring to light.
fn shapes_of(shape: usize) -> impl Iterator<Item = Habit> {
    Habit::ALL.into_iter().filter(move |habit| habit.shape() == Some(shape))
}

impl<'a> Chosen<'_, 'a> {
    /// Whether it looks like a habit; `None` where it can't say anything of it.
    fn looks_like(&self, habit: Habit) -> Option<bool> {
        match habit {
            Habit::IgnoresStops => self.after_stop(),
            Habit::PadsOfAnotherShell => self.own_pads(),
            Habit::SizeUpForCheeks => self.size_up(),
            Habit::LongAsIntermediate
            | Habit::IntermediateAsLong
            | Habit::RoundAsIntermediate
            | Habit::IntermediateAsRound => self.other_shape(habit),
            Habit::StartsTooLarge => self.starts_off().map(|off| off > HALF_A_SIZE),
            Habit::StartsTooSmall => self.starts_off().map(|off| off < -HALF_A_SIZE),
            Habit::PadsAgainst => self.pads_against(),
            Habit::WrongWay => self.wrong_way(),
            Habit::HelmetBeforePads => self.helmet_before_pads(),
            Habit::PadsBeyondHelp => self.pads_beyond_help(),
            Habit::GivesUpEarly => self.gives_up(),
        }
    }

    /// What can hurt somebody never comes here: whoever does is told at once.
    fn after_stop(&self) -> Option<bool> {
        (self.reason()?.nature() == Nature::Stop).then_some(false)
    }

    fn own_pads(&self) -> Option<bool> {
        let named = match self.answer {
            Answer::Helmet { pads, .. } | Answer::Pads(pads) => !pads.is_empty(),
            _ => false,
        };
        let model = self.catalogue.model(self.helmet?.model.as_str())?;
        (named && model.shells.len() > 1).then_some(false)
    }

    fn size_up(&self) -> Option<bool> {
        let (on, reason) = self.standing.failed()?;
        if reason != Reason::CheeksSqueeze {
            return None;
        }
        let is_up = self.fetched().is_some_and(|next| {
            self.of(on).is_some_and(|on| next.nominal.circumference > on.nominal.circumference + HALF_A_SIZE)
        });
        Some(is_up)
    }

    /// The first helmet is for another shape than the plan's.
    fn other_shape(&self, habit: Habit) -> Option<bool> {
        let [best, own] = self.first_helmets()?.map(|helmet| {
            let index = helmet.nominal.shape_index;
            self.catalogue.shop.words.place(index)
        });
        (habit.shape() == Some(best)).then(|| Habit::of_shapes(best, own) == Some(habit))
    }

    /// How much larger the first helmet is than the plan's, mm of circumference.
    fn starts_off(&self) -> Option<f64> {
        let [best, own] = self.first_helmets()?;
        Some(own.nominal.circumference - best.nominal.circumference)
    }

    /// The plan's first helmet and the one that was fetched.
    fn first_helmets(&self) -> Option<[Candidate<'a>; 2]> {
        let Best::Try(best, _) = &self.best else { return None };
        let own = self.fetched().filter(|_| self.standing.tried.is_empty())?;
        Some([self.of(best)?, own])
    }

    fn pads_against(&self) -> Option<bool> {
        let (on, reason) = self.standing.failed()?;
        let now = self.helmet.filter(|helmet| helmet.is_swap)?;
        let wanted = reason.direction()?;
        let change = Axis::ALL.map(|axis| foam(&now.pads, axis) - foam(&on.pads, axis));
        let named = || change.iter().zip(wanted).filter(|(_, wanted)| *wanted != 0);
        let is_worse = named().any(|(change, wanted)| change * f64::from(wanted) > 1e-9);
        Some(is_worse || named().all(|(change, _)| change.abs() < 1e-9))
    }

    fn wrong_way(&self) -> Option<bool> {
        let (on, reason) = self.standing.failed()?;
        let wanted = reason.direction()?;
        let next = self.fetched()?;
        let outline = self.catalogue.shop.fit.outline;
        let [on, next] = [self.of(on)?, next].map(|helmet| helmet.nominal.dimensions(outline));
        let is_worse = (0..3).any(|axis| (next[axis] - on[axis]) * f64::from(wanted[axis]) < -WORSE_BY);
        Some(is_worse)
    }

    fn helmet_before_pads(&self) -> Option<bool> {
        let is_best = matches!(&self.best, Best::Try(best, _) if best.is_swap);
        let is_other = *self.answer == Answer::NoPads || self.fetched().is_some();
        (is_best && *self.answer != Answer::Leave).then_some(is_other)
    }

    fn pads_beyond_help(&self) -> Option<bool> {
        let is_best = !matches!(&self.best, Best::Try(best, _) if best.is_swap);
        (is_best && self.has_pads()?).then(|| self.helmet.is_some_and(|helmet| helmet.is_swap))
    }

    /// Whether the helmet on the head takes other pads where it was complained about; `None` where no pads are.
    fn has_pads(&self) -> Option<bool> {
        let (on, reason) = self.standing.failed().filter(|(_, reason)| reason.nature() == Nature::Geometric)?;
        let wanted = reason.direction()?;
        let table = self.of(on)?.axes;
        Some(
            table
                .iter()
                .zip(wanted)
                .any(|(table, way)| way != 0 && table.as_ref().is_some_and(|table| table.options.len() > 1)),
        )
    }

    fn gives_up(&self) -> Option<bool> {
        let is_session = self.exercise != Exercise::Pads && !self.standing.tried.is_empty();
        (is_session && self.best != Best::Leave).then(|| *self.answer == Answer::Leave)
    }

    fn reason(&self) -> Option<Reason> {
        self.standing.failed().map(|(_, reason)| reason)
    }

    /// The helmet that was fetched, as its profile has it.
    fn fetched(&self) -> Option<Candidate<'a>> {
        self.helmet.filter(|helmet| !helmet.is_swap).and_then(|helmet| self.of(helmet))
    }

    fn of(&self, helmet: &OnHead) -> Option<Candidate<'a>> {
        let model = self.catalogue.model(helmet.model.as_str())?;
        Candidate::of_size(model, &helmet.size, self.catalogue)
    }
}
