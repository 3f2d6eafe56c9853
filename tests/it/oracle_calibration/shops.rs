//! Many simulated shops, each with its own true helmets, and how far what was said in all of them lies from what happened.

use itertools::Itertools;
use lidladder::catalogue::Catalogue;
use lidladder::head::Measure;
use lidladder::journal::Day;
use lidladder::plan::Lead;
use lidladder::profile::{Kind, Measurer, Tool};
use lidladder::score::Forecast;
use lidladder::simulate::{Fitter, Habits, Shape, Situation, Taken, Visit, World, simulate};
use std::collections::BTreeMap;

/// What is simulated.
#[derive(Clone)]
pub(crate) struct Design {
    /// Numbers of the shops, which are their seeds.
    pub(crate) shops: std::ops::Range<u64>,
    pub(crate) customers: u64,
    /// What kinds of helmet may be tried.
    pub(crate) kinds: Vec<Kind>,
    pub(crate) situations: Vec<Situation>,
    /// True errors of profiles, in what the profiles state.
    pub(crate) profile_errors: f64,
    /// How often a reported reason is wrong in truth.
    pub(crate) misreport: f64,
}

/// What was said in a shop, and what happened.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Said {
    pub(crate) shop: u64,
    pub(crate) situation: usize,
    pub(crate) forecast: Forecast,
}

/// Everything that was said in some shops.
#[derive(Default)]
pub(crate) struct Told {
    /// Of the first helmets.
    pub(crate) first: Vec<Said>,
    /// Of the helmets after them, given what was heard.
    pub(crate) later: Vec<Said>,
    /// Of the whole plans: that they end with a fit.
    pub(crate) whole: Vec<Said>,
    /// Of a helmet picked at random from the list beside each plan.
    pub(crate) listed: Vec<Said>,
    pub(crate) customers: usize,
    pub(crate) plans: usize,
}

/// How far what was said lies from what happened.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Gap {
    /// What happened minus what was said, mean.
    pub(crate) mean: f64,
    /// The standard error of that, where what was said is right: from the scatter between shops, whose customers share
    /// the errors of their profiles, and no less than that of independent tries.
    pub(crate) error: f64,
}

impl Gap {
    pub(crate) fn of<'s>(said: impl IntoIterator<Item = &'s Said>) -> Self {
        let (mut count, mut alone) = (0.0, 0.0);
        let mut shops: BTreeMap<u64, f64> = BTreeMap::new();
        for Said { shop, forecast: Forecast { said, happened }, .. } in said {
            count += 1.0;
            alone += said * (1.0 - said);
            *shops.entry(*shop).or_default() += f64::from(u8::from(*happened)) - said;
        }
        let together: f64 = shops.values().map(|sum| sum * sum).sum();
        Self { mean: shops.values().sum::<f64>() / count, error: alone.max(together).sqrt() / count }
    }

    /// The gap in its standard errors.
    pub(crate) fn sigmas(self) -> f64 {
        self.mean / self.error
    }
}

/// The forecasts alone.
pub(crate) fn forecasts<'s>(said: impl IntoIterator<Item = &'s Said>) -> Vec<Forecast> {
    said.into_iter().map(|said| said.forecast).collect()
}

/// What was said from this probability on, below the other; 1 belongs to the last tenth.
pub(crate) fn between(said: &[Said], from: f64, to: f64) -> impl Iterator<Item = &Said> {
    said.iter().filter(move |said| said.forecast.said >= from && (said.forecast.said < to || to >= 1.0))
}

impl Told {
    /// Every kind of statement by its name.
    pub(crate) fn tables(&self) -> [(&'static str, &[Said]); 4] {
        [
            ("first tries", &self.first),
            ("later tries", &self.later),
            ("whole plans", &self.whole),
            ("helmets of the list", &self.listed),
        ]
    }

    /// With what was said in other shops.
    pub(crate) fn and(mut self, other: Self) -> Self {
        self.first.extend(other.first);
        self.later.extend(other.later);
        self.whole.extend(other.whole);
        self.listed.extend(other.listed);
        Self { customers: self.customers + other.customers, plans: self.plans + other.plans, ..self }
    }

    fn add(&mut self, shop: u64, visit: &Visit) {
        let said = |forecast| Said { shop, situation: visit.situation, forecast };
        for (at, tried) in visit.tries.iter().enumerate() {
            let Some(probability) = tried.record.fit_probability else { continue };
            let forecast = Forecast { said: probability, happened: tried.truth.is_none() };
            if at == 0 { &mut self.first } else { &mut self.later }.push(said(forecast));
        }
        self.whole.push(said(visit.whole));
        self.listed.extend(visit.listed.map(said));
        self.customers += 1;
    }
}

/// Lets customers come into every shop of a design.
pub(crate) fn told(catalogue: &Catalogue, design: &Design) -> Told {
    let population = catalogue.population("adults").expect("part of the demo range");
    let habits = Habits {
        population,
        situations: design.situations.clone(),
        misreport: design.misreport,
        from: Day::new(2026, 1, 2).expect("a day"),
        a_day: 5,
    };
    let models = catalogue.models().iter().filter(|model| design.kinds.contains(&model.kind)).collect_vec();
    // The shops believe the same profiles, so they make the same plans.
    let mut fitter = Fitter::new(catalogue, population, models, Lead::ShopFirst);
    let mut told = Told::default();
    for shop in design.shops.clone() {
        let world = World::drawn(catalogue, design.profile_errors, shop);
        for visit in simulate(&world, &habits, &mut fitter, design.customers, shop) {
            told.add(shop, &visit);
        }
    }
    told.plans = fitter.plans();
    told
}

/// What four situations are called: tape; tape and a word for the shape; tape and breadth; all four measures.
pub(crate) const SITUATIONS: [&str; 4] = ["tape", "tape, shape by eye", "tape, breadth", "all four measures"];

/// Customers in those situations, in these shares; calipers are written down in such steps (mm), tapes in steps of 5.
pub(crate) fn situations(catalogue: &Catalogue, shares: [f64; 4], caliper_step: f64) -> Vec<Situation> {
    let shop = &catalogue.shop;
    let taken = |measure, with, step| Taken::as_assumed(shop, measure, Measurer::Staff, with, step).expect("assumed");
    let tape = taken(Measure::Circumference, Tool::Tape, 5.0);
    let [length, breadth, face_width] = [Measure::Length, Measure::Breadth, Measure::FaceWidth]
        .map(|measure| taken(measure, Tool::Caliper, caliper_step));
    let situations = [
        (vec![tape], Shape::Unsaid),
        (vec![tape], Shape::ByEye),
        (vec![tape, breadth], Shape::Unsaid),
        (vec![tape, length, breadth, face_width], Shape::Unsaid),
    ];
    let situation = |(share, (taken, shape))| Situation { share, taken, shape };
    shares.into_iter().zip(situations).map(situation).collect()
}
