//! Customers who tried a new helmet.

use super::pieces::{halves, pieces, trimmed};
use super::{Resolver, mount};
use crate::catalogue::{Catalogue, read_capped};
use crate::diag::{Code, Diagnostic, Said, Sources};
use crate::head::{Measure, Population, Posterior, Reading, ShapeByEye};
use crate::profile::{Measurer, Reason, Tool, text_of, tries};
use crate::sketch::{NewSize, Tried};
use itertools::Itertools;
use std::path::Path;

/// So many customers are listened to; more are a case for learning from a record, and take long.
const MOST_TRIES: usize = 100;

/// Who measures in this shop, and with what.
#[derive(Debug, Clone, Copy)]
pub(super) struct Habits {
    pub(super) by: Measurer,
    pub(super) with: Tool,
}

/// What is known of a head.
#[derive(Default)]
struct Head {
    readings: Vec<Reading>,
    by_eye: Option<ShapeByEye>,
}

/// The tries of a file, as they stand there.
pub(super) fn read(path: &Path, sources: &mut Sources) -> Result<Vec<Said>, Vec<Diagnostic>> {
    let name = path.to_string_lossy().into_owned();
    let bytes = read_capped(path).map_err(|fault| {
        let message = format!("can't read the list of tries {name}: {fault}");
        let help = "check the path; the file is YAML with the tries in a list";
        vec![Diagnostic::error(Code("tries-unreadable"), message).help(help)]
    })?;
    let text = text_of(&name, bytes).map_err(|problem| vec![problem])?;
    let source = sources.add(name, text);
    tries(source, &sources.get(source).text)
}

impl Resolver {
    /// `SIZE/HEAD/OUTCOME` or `SIZE/HEAD/OUTCOME/PADS`.
    pub(super) fn tries(
        &mut self,
        all: &[Said],
        sizes: &[NewSize<'_>],
        from: (&Population, Habits),
        (catalogue, sources): (&Catalogue, &Sources),
    ) -> Vec<Tried> {
        if let Some(beyond) = all.get(MOST_TRIES) {
            let message = format!("{} customers are more than the {MOST_TRIES} that a sketch listens to", all.len());
            let problem = Diagnostic::error(Code("too-many-tries"), message).at(beyond.span, "one too many");
            self.problems.push(problem.help("take the latest ones; so many hardly move a sketch any more"));
            return Vec::new();
        }
        all.iter().filter_map(|said| self.tried(said, sizes, from, (catalogue, sources))).collect()
    }

    fn tried(
        &mut self,
        said: &Said,
        sizes: &[NewSize<'_>],
        (population, habits): (&Population, Habits),
        (catalogue, sources): (&Catalogue, &Sources),
    ) -> Option<Tried> {
        let parts = pieces(said, '/').iter().map(trimmed).collect_vec();
        let ([label, head, outcome] | [label, head, outcome, _]) = &parts[..] else {
            let help = "write for example M/575/fits, M/c=578,b=157/too-oval, or M/575/fits/sides:10 for other pads";
            self.error(
                "try-form",
                said,
                "a try is SIZE/HEAD/OUTCOME or SIZE/HEAD/OUTCOME/PADS",
                "not of this form",
                help,
            );
            return None;
        };
        let labels = sizes.iter().map(|size| &size.label).collect_vec();
        let label = self.new_label(label, &labels);
        let head = self.head(head, habits, (catalogue, sources));
        let reason = self.outcome(outcome);
        let pads = match parts.get(3) {
            None => Some(None),
            Some(pads) => self.named_pads(pads).map(Some),
        };
        let size = sizes.iter().position(|size| Some(&size.label) == label.as_ref())?;
        let (head, reason, pads) = (head?, reason?, pads?);
        let mounted = pads.map(|pads| {
            let mut set = sizes[size].standard;
            mount(&mut set, &pads);
            set
        });
        let by_eye = head.by_eye;
        Some(Tried {
            size,
            head: Posterior::new(population, &head.readings, by_eye),
            readings: head.readings,
            mounted,
            reason,
        })
    }

    /// `575`, or `c=578,l=198,b=157,w=140,shape=long`, any of them; nothing for a head that nobody measured.
    fn head(&mut self, said: &Said, habits: Habits, (catalogue, sources): (&Catalogue, &Sources)) -> Option<Head> {
        let mut head = Head::default();
        if said.text.is_empty() {
            return Some(head);
        }
        let parts = pieces(said, ',').iter().map(trimmed).collect_vec();
        // A decimal comma cuts a number in two: that is told before the first half is taken for a measure.
        if let Some(bare) = parts[1..].iter().find(|part| !part.text.contains('=')) {
            let help = "write c=578,l=198,b=157,w=140 with a comma between measures and a point for decimals";
            self.error("try-form", bare, "which measure is this?", "c=, l=, b=, w= or shape= is missing", help);
            return None;
        }
        let mut seen = Vec::new();
        for piece in parts {
            let (key, value) = match halves(&piece, '=') {
                Some((key, value)) => (trimmed(&key), trimmed(&value)),
                None => (Said { text: "c".to_owned(), span: piece.span }, piece.clone()),
            };
            let measure = self.measure(&key)?;
            if seen.contains(&measure) {
                self.error("try-form", &piece, "a measure is given twice", "the second one", "give each measure once");
                return None;
            }
            seen.push(measure);
            match measure {
                None => head.by_eye = Some(self.shape(Some(&value), catalogue)?),
                Some(measure) => {
                    let tool = if measure == Measure::Circumference { Tool::Tape } else { habits.with };
                    let usual = catalogue.shop.reading_sd(habits.by, tool);
                    head.readings.push(self.reading(measure, &value, usual, sources)?);
                }
            }
        }
        head.readings.sort_by_key(|reading| reading.measure);
        Some(head)
    }

    /// A measure by its letter or its name; `None` inside for the shape.
    fn measure(&mut self, said: &Said) -> Option<Option<Measure>> {
        const MEASURES: &[(&str, Option<Measure>)] = &[
            ("c", Some(Measure::Circumference)),
            ("l", Some(Measure::Length)),
            ("b", Some(Measure::Breadth)),
            ("w", Some(Measure::FaceWidth)),
            ("shape", None),
            ("circumference", Some(Measure::Circumference)),
            ("length", Some(Measure::Length)),
            ("breadth", Some(Measure::Breadth)),
            ("face-width", Some(Measure::FaceWidth)),
        ];
        self.word(Some(said), "a measure", MEASURES)
    }

    /// `fits` (`None` inside) or a reason that speaks of the head's measures.
    fn outcome(&mut self, said: &Said) -> Option<Option<Reason>> {
        if said.text == "fits" {
            return Some(None);
        }
        if Reason::from_id(&said.text).is_none() {
            let known = std::iter::once("fits").chain(Reason::ALL.map(Reason::id)).collect_vec();
            self.unknown("unknown-reason", said, "outcome", &known);
            return None;
        }
        self.telling_reason(said).map(Some)
    }
}
