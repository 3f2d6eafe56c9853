//! From what was typed to what it means, with every problem on the way.

mod asked;
mod changed;
mod experience;
mod from_home;
mod practice;
mod question;
mod session;
mod stocking;
mod trainee;
mod wish;

pub(super) use asked::{Asked, People, asked, helmets};
pub(super) use changed::{alterations, column};
pub(super) use from_home::asked_from_home;
pub(super) use practice::practice;
pub(super) use question::question;
pub(super) use session::opening;
pub(super) use stocking::stocking;
pub(super) use trainee::answers_to;
pub(super) use wish::wish;

use super::args::{TypedCommon, TypedFilter, TypedHead, TypedLead};
use super::notes::{Notes, notes};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Said, Sources, is_full, known_here, note};
use crate::fit::{Customer, Worn};
use crate::head::{Measure, Posterior, Reading, ShapeByEye, WrittenFaultKind, read_measure};
use crate::journal::Read;
use crate::plan::Lead;
use crate::profile::{ChinRoom, Kind, Measurer, Model, Reason, Tool};
use crate::unit::{Id, Money, plain};
use itertools::Itertools;

/// Collects problems while words get their meaning.
#[derive(Default)]
pub(super) struct Resolver {
    problems: Vec<Diagnostic>,
}

/// Models and sizes that may be tried.
pub(super) struct Range<'a> {
    pub(super) models: Vec<&'a Model>,
    pub(super) absent: Vec<(Id, Id)>,
}

/// How a measure was taken.
#[derive(Debug, Clone, Copy)]
struct Habit {
    by: Measurer,
    with: Tool,
    /// The usual error of such a reading, mm, where the shop's file says it.
    sd: Option<f64>,
}

impl Habit {
    /// The circumference is always taken with a tape.
    fn of(measure: Measure, by: Measurer, with: Tool, catalogue: &Catalogue) -> Self {
        let with = if measure == Measure::Circumference { Tool::Tape } else { with };
        Self { by, with, sd: catalogue.shop.reading_sd(by, with) }
    }
}

impl Resolver {
    /// The value where there was no problem, all problems otherwise.
    pub(super) fn finish<T>(self, value: Option<T>) -> Result<T, Vec<Diagnostic>> {
        match value {
            Some(value) if self.problems.is_empty() => Ok(value),
            _ => Err(self.problems),
        }
    }

    /// Everything that was typed about a customer, options before the file.
    pub(super) fn notes(
        &mut self,
        head: &TypedHead,
        filter: &TypedFilter,
        sources: &mut Sources,
    ) -> Result<Notes, Vec<Diagnostic>> {
        notes(head, filter, sources)
    }

    /// The head.
    pub(super) fn customer<'a>(
        &mut self,
        notes: &Notes,
        common: &TypedCommon,
        catalogue: &'a Catalogue,
        sources: &Sources,
    ) -> Option<Customer<'a>> {
        let reads = self.reads(notes, catalogue, sources);
        self.measured_customer(notes, reads.iter().map(Reading::from).collect(), common, catalogue)
    }

    /// What was measured, each measure with the usual error of such a reading where the shop's file says it.
    fn said_readings<T>(
        &mut self,
        notes: &Notes,
        catalogue: &Catalogue,
        mut read: impl FnMut(&mut Self, Measure, &Said, Habit) -> Option<T>,
    ) -> Vec<T> {
        let by = self.word(notes.measured_by.as_ref(), "measured-by", MEASURERS).unwrap_or(Measurer::Staff);
        let with = self.word(notes.measured_with.as_ref(), "measured-with", TOOLS).unwrap_or(Tool::Caliper);
        let written = [
            (Measure::Circumference, &notes.circumference),
            (Measure::Length, &notes.length),
            (Measure::Breadth, &notes.breadth),
            (Measure::FaceWidth, &notes.face_width),
        ];
        let mut readings = Vec::new();
        for (measure, said) in written {
            let habit = Habit::of(measure, by, with, catalogue);
            readings.extend(said.as_ref().and_then(|said| read(self, measure, said, habit)));
        }
        readings
    }

    /// The head, with what was measured.
    fn measured_customer<'a>(
        &mut self,
        notes: &Notes,
        readings: Vec<Reading>,
        common: &TypedCommon,
        catalogue: &'a Catalogue,
    ) -> Option<Customer<'a>> {
        let population = self.population(notes.population.as_ref(), catalogue);
        let by_eye = self.shape(notes.shape.as_ref(), catalogue);
        let worn = notes.wears.iter().filter_map(|said| self.worn(said, catalogue)).collect();
        let population = population?;
        Some(Customer {
            head: Posterior::new(population, &readings, by_eye),
            readings,
            population: population.id.clone(),
            worn,
            seed: common.seed,
        })
    }

    /// What was measured, by whom and with what.
    fn reads(&mut self, notes: &Notes, catalogue: &Catalogue, sources: &Sources) -> Vec<Read> {
        self.said_readings(notes, catalogue, |resolver, measure, said, habit| {
            resolver.read(measure, said, habit, sources)
        })
    }

    /// One reading.
    fn read(&mut self, measure: Measure, said: &Said, habit: Habit, sources: &Sources) -> Option<Read> {
        let reading = self.reading(measure, said, habit.sd, sources)?;
        Some(Read { measure, value: reading.value, sd: reading.sd, by: habit.by, with: habit.with })
    }

    /// The helmets that may be tried.
    pub(super) fn range<'a>(&mut self, notes: &Notes, catalogue: &'a Catalogue) -> Option<Range<'a>> {
        let kinds = notes.types.iter().filter_map(|said| self.word(Some(said), "type", KINDS)).collect_vec();
        let must = notes.must.iter().filter_map(|said| self.word(Some(said), "must", THINGS)).collect_vec();
        let price = notes.price_limit.as_ref().and_then(|said| self.money(said));
        let mass = notes.mass_limit.as_ref().and_then(|said| self.number(said, "a mass in g, such as 1500"));
        let mut absent = Vec::new();
        for said in &notes.out_of_stock {
            absent.extend(self.absent(said, catalogue));
        }
        let mut models = catalogue.models().iter().collect_vec();
        let mut left_out = Vec::new();
        let mut keep = |what: String, wanted: &dyn Fn(&Model) -> bool| {
            let before = models.len();
            models.retain(|model| wanted(model));
            if models.len() < before {
                left_out.push(format!("{what} leaves {} of {before}", models.len()));
            }
        };
        if !kinds.is_empty() {
            keep("--type".to_owned(), &|model| kinds.contains(&model.kind));
        }
        for thing in &must {
            keep(format!("--must {}", thing.name()), &|model| thing.is_had_by(model));
        }
        if let Some(limit) = price {
            keep(format!("--price-limit {limit}"), &|model| model.price <= limit);
        }
        if let Some(limit) = mass {
            keep(format!("--mass-limit {}", plain(limit)), &|model| model.attributes.mass_g <= limit);
        }
        keep("--out-of-stock".to_owned(), &|model| {
            !model.sizes().all(|(_, size)| absent.iter().any(|(id, label)| *id == model.id && *label == size.label))
        });
        if models.is_empty() {
            let problem = Diagnostic::error(Code("nothing-left"), "these filters leave no model to try")
                .help(format!("{}: loosen one of them", left_out.join(", ")));
            self.problems.push(problem);
        }
        Some(Range { models, absent })
    }

    /// A model by its id.
    pub(super) fn model<'a>(&mut self, said: &Said, catalogue: &'a Catalogue) -> Option<&'a Model> {
        let model = catalogue.model(&said.text);
        if model.is_none() {
            let known = catalogue.models().iter().map(|model| model.id.as_str()).collect_vec();
            self.unknown("unknown-model", said, "model", &known);
        }
        model
    }

    /// A size of a model by its label.
    pub(super) fn size(&mut self, said: &Said, model: &Model) -> Option<Id> {
        let label = Catalogue::size_label(model, &said.text);
        if label.is_none() {
            let known = model.sizes().map(|(_, size)| size.label.as_str()).collect_vec();
            let message = format!("{} has no size `{}`", model.id, shown(&said.text));
            self.not_known("unknown-size", said, message, &known);
        }
        label.cloned()
    }

    /// A number above 0; `what` says what is wanted.
    pub(super) fn number(&mut self, said: &Said, what: &str) -> Option<f64> {
        let number = said.text.trim().parse::<f64>().ok().filter(|number| number.is_finite() && *number > 0.0);
        if number.is_none() {
            self.error(
                "not-a-number",
                said,
                format!("`{}` is not {what}", shown(&said.text)),
                "a number above 0 is needed here",
                "write digits, with a point for decimals",
            );
        }
        number
    }

    fn money(&mut self, said: &Said) -> Option<Money> {
        let amount = self.number(said, "an amount of money, such as 450")?;
        let money = Money::try_from(amount).ok();
        if money.is_none() {
            self.error(
                "not-a-price",
                said,
                "an amount has at most two decimals and is at most a million",
                "no price",
                "write it as 450 or 449.90",
            );
        }
        money
    }

    fn population<'a>(&mut self, said: Option<&Said>, catalogue: &'a Catalogue) -> Option<&'a crate::head::Population> {
        let Some(said) = said else { return catalogue.population(catalogue.shop.population.as_str()) };
        let population = catalogue.population(&said.text);
        if population.is_none() {
            let known = catalogue.populations().iter().map(|population| population.id.as_str()).collect_vec();
            self.unknown("unknown-population", said, "population", &known);
        }
        population
    }

    fn reading(&mut self, measure: Measure, said: &Said, usual: Option<f64>, sources: &Sources) -> Option<Reading> {
        let written = match read_measure(&said.text) {
            Ok(written) => written,
            Err(fault) => {
                let place = sources.part(said, fault.place);
                let (code, message, help) = match fault.kind {
                    WrittenFaultKind::NoNumber => {
                        ("measure-number", "a length begins with a number", "write it as 57.5cm, 575 or 22.6in")
                    }
                    WrittenFaultKind::Comma => {
                        ("measure-comma", "decimals are written with a point here", "write 57.5cm instead of 57,5cm")
                    }
                    WrittenFaultKind::BadNumber => {
                        ("measure-number", "this is not one number", "write it as 57.5cm, 575 or 22.6in")
                    }
                    WrittenFaultKind::Unit => (
                        "measure-unit",
                        "a length is in mm, cm or in",
                        "write it as 575mm, 57.5cm or 22.6in; without a unit it is mm",
                    ),
                };
                note(&mut self.problems, || {
                    Diagnostic::error(Code(code), format!("the {}: {message}", measure.name()))
                        .at(place, "here")
                        .help(help)
                });
                return None;
            }
        };
        let (least, most) = measure.human_range();
        if !(least..=most).contains(&written.value) {
            let message = format!("no human head has a {} of {} mm", measure.name(), written.value);
            let help = meant(written.value, least, most, &said.text);
            self.error("measure-human", said, message, &format!("expected {least} to {most} mm"), &help);
            return None;
        }
        let sd = written.sd.or(usual);
        let Some(sd) = sd else {
            let help = "write the error beside the value, as 152±2, or add a line under `measuring` in shop.yaml";
            self.error(
                "measure-error",
                said,
                "the shop's file doesn't say how exact such a reading is",
                "how exact?",
                help,
            );
            return None;
        };
        if sd > 50.0 {
            let help = "leave the measure out, or measure again";
            self.error(
                "measure-error",
                said,
                format!("a reading that is {sd} mm off says nothing"),
                "too large an error",
                help,
            );
            return None;
        }
        Some(Reading { measure, value: written.value, sd })
    }

    fn shape(&mut self, said: Option<&Said>, catalogue: &Catalogue) -> Option<ShapeByEye> {
        self.shape_word(said).map(|at| catalogue.shop.by_eye[at])
    }

    /// 0 long, 1 intermediate, 2 round.
    fn shape_word(&mut self, said: Option<&Said>) -> Option<usize> {
        self.word(said, "shape", &[("long", 0), ("intermediate", 1), ("round", 2)])
    }

    fn worn<'a>(&mut self, said: &Said, catalogue: &'a Catalogue) -> Option<Worn<'a>> {
        let parts = said.text.split('/').collect_vec();
        let ([model, size] | [model, size, _]) = parts[..] else {
            let help = "write for example wexmarsh-one/L/temples-press, or wexmarsh-one/L for a helmet that fits";
            self.error(
                "helmet-form",
                said,
                "a worn helmet is MODEL/SIZE or MODEL/SIZE/REASON",
                "not of this form",
                help,
            );
            return None;
        };
        let part = |text: &str| Said { text: text.to_owned(), span: said.span };
        let model = self.model(&part(model), catalogue)?;
        let size = self.size(&part(size), model)?;
        let reason = match parts.get(2) {
            None => None,
            Some(text) => Some(self.telling_reason(&part(text))?),
        };
        Some(Worn { model, size, pads: None, reason })
    }

    /// A reason by its id.
    pub(super) fn reason(&mut self, said: &Said) -> Option<Reason> {
        let reason = Reason::from_id(&said.text);
        if reason.is_none() {
            self.unknown("unknown-reason", said, "reason", &Reason::ALL.map(Reason::id));
        }
        reason
    }

    /// A reason that says something of the measures of a head.
    fn telling_reason(&mut self, said: &Said) -> Option<Reason> {
        let reason = self.reason(said)?;
        if reason.direction().is_none() {
            let message = format!("`{}` says nothing about the measures of a head", reason.id());
            let known = Reason::geometric().iter().map(|reason| reason.id()).join(", ");
            self.error("silent-reason", said, message, "of no use here", &format!("use one of {known}"));
            return None;
        }
        Some(reason)
    }

    fn absent(&mut self, said: &Said, catalogue: &Catalogue) -> Vec<(Id, Id)> {
        let part = |text: &str| Said { text: text.to_owned(), span: said.span };
        let (model, size) = said.text.split_once('/').map_or((said.text.as_str(), None), |(m, s)| (m, Some(s)));
        let Some(model) = self.model(&part(model), catalogue) else { return Vec::new() };
        match size {
            Some(size) => self.size(&part(size), model).map(|label| (model.id.clone(), label)).into_iter().collect(),
            None => model.sizes().map(|(_, size)| (model.id.clone(), size.label.clone())).collect(),
        }
    }

    /// One of a few words.
    fn word<T: Copy>(&mut self, said: Option<&Said>, what: &str, words: &[(&str, T)]) -> Option<T> {
        let said = said?;
        let found = words.iter().find(|(word, _)| *word == said.text).map(|(_, meaning)| *meaning);
        if found.is_none() {
            let known = words.iter().map(|(word, _)| *word).collect_vec();
            let message = format!("`{}` is no word for {what}", shown(&said.text));
            self.not_known("unknown-word", said, message, &known);
        }
        found
    }

    fn unknown(&mut self, code: &'static str, said: &Said, what: &str, known: &[&str]) {
        let message = format!("there is no {what} `{}`", shown(&said.text));
        self.not_known(code, said, message, known);
    }

    fn not_known(&mut self, code: &'static str, said: &Said, message: String, known: &[&str]) {
        if !is_full(&self.problems) {
            self.error(code, said, message, "not known", &known_here(&said.text, known));
        }
    }

    fn error(&mut self, code: &'static str, said: &Said, message: impl Into<String>, label: &str, help: &str) {
        note(&mut self.problems, || Diagnostic::error(Code(code), message).at(said.span, label).help(help));
    }
}

const MEASURERS: &[(&str, Measurer)] = &[("staff", Measurer::Staff), ("customer", Measurer::Customer)];

const TOOLS: &[(&str, Tool)] = &[("caliper", Tool::Caliper), ("ruler", Tool::Ruler), ("phone", Tool::Phone)];

const KINDS: &[(&str, Kind)] = &[
    ("full-face", Kind::FullFace),
    ("flip-front", Kind::FlipFront),
    ("open-face", Kind::OpenFace),
    ("adventure", Kind::Adventure),
    ("off-road", Kind::OffRoad),
];

const THINGS: &[(&str, Thing)] = &[
    ("spectacle-channel", Thing::SpectacleChannel),
    ("intercom-ready", Thing::IntercomReady),
    ("chin-room", Thing::ChinRoom),
];

impl TypedLead {
    /// Who leads.
    pub(super) fn meaning(self) -> Lead {
        match self {
            Self::ShopFirst => Lead::ShopFirst,
            Self::ShopOnly => Lead::ShopOnly,
            Self::ComputedOnly => Lead::ComputedOnly,
        }
    }
}

/// Something that a helmet must have.
#[derive(Debug, Clone, Copy)]
enum Thing {
    SpectacleChannel,
    IntercomReady,
    ChinRoom,
}

impl Thing {
    fn name(self) -> &'static str {
        match self {
            Self::SpectacleChannel => "spectacle-channel",
            Self::IntercomReady => "intercom-ready",
            Self::ChinRoom => "chin-room",
        }
    }

    /// Much room before the chin has a helmet with a large room, or without a bar.
    fn is_had_by(self, model: &Model) -> bool {
        match self {
            Self::SpectacleChannel => model.attributes.spectacle_channel,
            Self::IntercomReady => model.attributes.intercom_ready,
            Self::ChinRoom => model.attributes.chin_room.is_none_or(|room| room == ChinRoom::Large),
        }
    }
}

/// What somebody may have meant by a number that no head has.
fn meant(value: f64, least: f64, most: f64, text: &str) -> String {
    let plain = text.trim();
    let fits = |factor: f64| (least..=most).contains(&(value * factor));
    match (fits(10.0), fits(25.4)) {
        (true, _) if plain.ends_with(|c: char| c.is_ascii_digit()) => {
            format!("did you mean {plain}cm? Without a unit it is mm")
        }
        (_, true) if plain.ends_with(|c: char| c.is_ascii_digit()) => {
            format!("did you mean {plain}in? Without a unit it is mm")
        }
        _ if fits(0.1) => "a factor of ten: is the unit right?".to_owned(),
        _ => "check the number and the unit".to_owned(),
    }
}

/// The start of a typed text, with its control characters visible.
fn shown(text: &str) -> String {
    let shown: String = text.chars().take(MOST_SHOWN).flat_map(char::escape_debug).collect();
    if text.chars().nth(MOST_SHOWN).is_some() { shown + "…" } else { shown }
}

/// How many characters of a typed text a message repeats.
const MOST_SHOWN: usize = 100;
