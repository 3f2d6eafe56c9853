//! Simulated customers at the counter: heads that answer, round by round, as they truly are in helmets as they truly are.

use super::shops::{Said, situations};
use itertools::Itertools;
use lidladder::catalogue::Catalogue;
use lidladder::counter::{Event, Opening, Session};
use lidladder::fit::{Candidate, PadSet, verdict};
use lidladder::head::Dimensions;
use lidladder::journal::{Day, Record};
use lidladder::plan::Lead;
use lidladder::profile::Reason;
use lidladder::score::Forecast;
use lidladder::simulate::{Chance, Fitter, Habits, World, heard, simulate};

/// Rounds after which a customer goes home.
const PATIENCE: usize = 8;

/// What the counter said, round by round, and what happened.
#[derive(Default)]
pub(crate) struct AtTheCounter {
    /// Of the pads in the first helmet.
    pub(crate) first: Vec<Said>,
    /// Of other pads in the helmet on the head.
    pub(crate) swaps: Vec<Said>,
    /// Of the pads in a further helmet.
    pub(crate) further: Vec<Said>,
    pub(crate) customers: usize,
    pub(crate) fitted: usize,
    /// Helmets that were on a head.
    pub(crate) helmets: usize,
    /// Minutes in the shops' reckoning.
    pub(crate) minutes: f64,
}

/// Lets customers come to the counters of some shops, each with its own true helmets.
pub(crate) fn at_the_counter(catalogue: &Catalogue, shops: std::ops::Range<u64>, customers: u64) -> AtTheCounter {
    let population = catalogue.population("adults").expect("part of the demo range");
    let habits = Habits {
        population,
        situations: situations(catalogue, [0.45, 0.15, 0.2, 0.2], 1.0),
        misreport: catalogue.shop.misreport,
        from: Day::new(2026, 1, 2).expect("a day"),
        a_day: 5,
    };
    let models = catalogue.models().iter().collect_vec();
    let mut fitter = Fitter::new(catalogue, population, models, Lead::ShopFirst);
    let mut told = AtTheCounter::default();
    for shop in shops {
        let world = World::drawn(catalogue, 1.0, shop);
        for visit in simulate(&world, &habits, &mut fitter, customers, shop) {
            if let Some(known) = visit.records().next() {
                let chance = Chance::new(shop, "at the counter", known.customer);
                Customer { world: &world, head: visit.head, shop, situation: visit.situation, chance }
                    .comes_in(catalogue, known, &mut told);
            }
        }
    }
    told
}

struct Customer<'w> {
    world: &'w World<'w>,
    head: Dimensions,
    shop: u64,
    situation: usize,
    chance: Chance,
}

impl Customer<'_> {
    fn comes_in(mut self, catalogue: &Catalogue, known: &Record, told: &mut AtTheCounter) {
        let mut session = Session::new(catalogue, opening(catalogue, known), Vec::new()).expect("all of it is known");
        for _ in 0..PATIENCE {
            let Some(now) = session.next().and_then(|next| next.now) else { break };
            let helmet = self.world.helmet(&now.model.id, &now.size.label).expect("it stands on the shelf");
            let truth = self.feels(catalogue, helmet, &now.pads);
            let forecast = Forecast { said: now.heard[0].value, happened: truth.is_none() };
            let said = Said { shop: self.shop, situation: self.situation, forecast };
            let is_first = session.standing().tried.is_empty();
            match (now.is_swap, is_first) {
                (true, _) => &mut told.swaps,
                (false, true) => &mut told.first,
                (false, false) => &mut told.further,
            }
            .push(said);
            let event = session
                .heard(Some(&now), heard(truth, catalogue.shop.misreport, &mut self.chance))
                .expect("it waits for an answer");
            session.add(event);
            if truth.is_none() {
                session.add(Event::Ended);
                told.fitted += 1;
                break;
            }
        }
        told.customers += 1;
        told.helmets += session.standing().helmets();
        told.minutes += session.standing().minutes();
    }

    /// Why these pads are no good on the true head; `None` where they are.
    fn feels(&self, catalogue: &Catalogue, helmet: &Candidate<'_>, pads: &PadSet) -> Option<Reason> {
        let rules = &catalogue.shop.fit;
        let judged = verdict(helmet, rules.outline.effective(self.head), rules).sets;
        judged.iter().find(|set| set.pads == *pads).expect("pads on offer").reason
    }
}

fn opening(catalogue: &Catalogue, known: &Record) -> Opening {
    Opening {
        day: known.day,
        seed: 1,
        head: known.head.clone(),
        models: catalogue.models().iter().map(|model| model.id.clone()).collect(),
        absent: Vec::new(),
        tries: catalogue.shop.session.tries,
        minutes: None,
        lead: Lead::ShopFirst,
    }
}
