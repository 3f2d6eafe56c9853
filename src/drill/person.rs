//! A customer that the program plays: a true head, helmets as they truly are, and what is known of the head.

use super::Level;
use crate::counter::OnHead;
use crate::fit::{Band, PadSet, SetVerdict, judged, verdict};
use crate::head::{Dimensions, EffectiveHead, Population};
use crate::journal::{Head, Wears};
use crate::profile::{Model, Nature, Reason};
use crate::simulate::{Chance, Taken, World, heard, seen_index};
use crate::unit::{Id, plain};
use itertools::Itertools;
use std::rc::Rc;

/// A customer that the program plays.
#[derive(Debug, Clone)]
pub struct Person<'a> {
    /// The true head.
    pub head: Dimensions,
    /// What is known of it.
    pub known: Head,
    /// The shape index that an eye sees from above, which is often wrong; `None` where nobody looks.
    pub seen: Option<f64>,
    room: EffectiveHead,
    world: Rc<World<'a>>,
    misreport: f64,
    /// Seed and number.
    draw: (u64, u64),
}

/// Helmets that are looked at for one with a complaint.
const LOOKED_AT: usize = 20;

impl<'a> Person<'a> {
    /// Somebody with this head, of whom this is measured, and for whom helmets are so.
    pub(super) fn new(
        world: Rc<World<'a>>,
        (population, level): (&Population, Level),
        models: &[&'a Model],
        (head, taken): (Dimensions, &[Taken]),
        draw: (u64, u64),
    ) -> Self {
        let shop = &world.catalogue().shop;
        let (seed, number) = draw;
        let mut chance = Chance::new(seed, "practice readings", number);
        let readings = taken.iter().map(|taken| taken.read(head, &mut chance)).collect();
        let seen = level.is_seen().then(|| seen_index(shop, head, &mut chance));
        let shape = seen.map(|index| shop.words.place(index));
        let known = Head { population: population.id.clone(), readings, shape, wears: Vec::new() };
        let misreport = level.misreport(shop);
        let room = shop.fit.outline.effective(head);
        let mut person = Self { head, known, seen, room, world, misreport, draw };
        if level.has_complaint() {
            person.known.wears = person.complaint(models).into_iter().collect();
        }
        person
    }

    /// What is said of a helmet with these pads; `None` for a good fit. The same is said whenever it is asked.
    #[must_use]
    pub fn says(&self, helmet: &OnHead) -> Option<Reason> {
        let truth = truth(&self.world, (&helmet.model, &helmet.size), helmet.pads, self.room)?;
        let reason = truth.reason?;
        let pads = helmet.pads.iter().filter_map(|(zone, mm)| Some(format!("{}={}", zone.name(), plain((*mm)?))));
        let name = format!("{} {} {}", helmet.model, helmet.size, pads.format(" "));
        let mut chance = Chance::new(self.draw.0, &name, self.draw.1);
        // A fitter sees a stop, and never misses it.
        if is_stop(&truth) {
            return chance.one_of(&[Reason::RollsOffForward, Reason::RollsOffBackward, Reason::TurnsOnHead]).copied();
        }
        heard(Some(reason), self.misreport, &mut chance)
    }

    /// What is true of a helmet with the best pads on offer; `None` for one that the shop doesn't have.
    #[must_use]
    pub fn best(&self, model: &Id, size: &Id) -> Option<SetVerdict> {
        let helmet = self.world.helmet(model, size)?;
        verdict(helmet, self.room, &self.world.catalogue().shop.fit).sets.into_iter().next()
    }

    /// The helmet that the customer comes in with, where it hurts.
    fn complaint(&self, models: &[&'a Model]) -> Option<Wears> {
        let mut chance = Chance::new(self.draw.0, "practice worn", self.draw.1);
        (0..LOOKED_AT).find_map(|_| {
            let worn = near(models, self.head, &mut chance)?;
            let reason = self.says(&worn).filter(|reason| reason.nature() == Nature::Geometric)?;
            Some(Wears { model: worn.model, size: worn.size, reason: Some(reason) })
        })
    }
}

/// A helmet with standard pads that somebody with such a head may have bought: in the size of the label, or in a neighbour
/// of it.
pub(super) fn near(models: &[&Model], head: Dimensions, chance: &mut Chance) -> Option<OnHead> {
    let model = *chance.one_of(models)?;
    let sizes = model.sizes().map(|(_, size)| size).collect_vec();
    let off = |at: &usize| (sizes[*at].centre() - head.circumference).abs();
    let nearest = (0..sizes.len()).min_by(|a, b| off(a).total_cmp(&off(b)))?;
    let size = *chance.one_of(&sizes[nearest.saturating_sub(1)..(nearest + 2).min(sizes.len())])?;
    Some(OnHead { model: model.id.clone(), size: size.label.clone(), pads: size.standard, is_swap: false })
}

/// What is true of a helmet with these pads; `None` for one that the shop doesn't have.
pub(super) fn truth(
    world: &World<'_>,
    (model, size): (&Id, &Id),
    pads: PadSet,
    room: EffectiveHead,
) -> Option<SetVerdict> {
    Some(judged(world.helmet(model, size)?, pads, room, &world.catalogue().shop.fit))
}

/// Loose all round and at the cheeks: nothing holds it.
pub(super) fn is_stop(truth: &SetVerdict) -> bool {
    let is_loose = |band: &Option<Band>| matches!(band, Some(Band::Loose | Band::Light));
    truth.band.iter().all(is_loose)
}
