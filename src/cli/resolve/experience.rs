//! What a fitter knows of a new helmet: from words to an [`Experience`].

mod pieces;
mod tried;

use super::{KINDS, MEASURERS, Resolver, TOOLS, shown};
use crate::catalogue::Catalogue;
use crate::cli::args::TypedSketch;
use crate::diag::{Diagnostic, Said, Sources};
use crate::fit::PadSet;
use crate::profile::{Kind, LABEL_CM, Measurer, Model, PAD_MM, Tool, Zone};
use crate::sketch::{Comparison, Experience, NewSize, standard_pads, statements};
use crate::unit::Id;
use itertools::Itertools;
use pieces::{halves, pieces, trimmed};
use tried::Habits;

/// Pads that were named: a zone, and its thickness or none.
type NamedPads = Vec<(Zone, Option<f64>)>;

impl Resolver {
    /// Everything that was typed about a new helmet, and the list of tries in the file.
    pub(in crate::cli) fn experience<'a>(
        &mut self,
        typed: &TypedSketch,
        catalogue: &'a Catalogue,
        sources: &mut Sources,
    ) -> Result<Option<Experience<'a>>, Vec<Diagnostic>> {
        let mut say = |name: &str, text: &String| sources.say(name, text.clone());
        let sizes = typed.sizes.iter().map(|text| say("--size", text)).collect_vec();
        let likes = typed.like.iter().map(|text| say("--like", text)).collect_vec();
        let pads = typed.pads.iter().map(|text| say("--pads", text)).collect_vec();
        let shape = typed.shape.as_ref().map(|text| say("--shape", text));
        let kind = typed.kind.as_ref().map(|text| say("--type", text));
        let by = typed.measured_by.as_ref().map(|text| say("--measured-by", text));
        let with = typed.measured_with.as_ref().map(|text| say("--measured-with", text));
        let population = typed.population.as_ref().map(|text| say("--population", text));
        let mut tries = typed.tried.iter().map(|text| say("--tried", text)).collect_vec();
        if let Some(path) = &typed.tries {
            tries.extend(tried::read(path, sources)?);
        }

        let kind = self.word(kind.as_ref(), "type", KINDS);
        let by_eye = self.shape(shape.as_ref(), catalogue);
        let likes = self.likes(&likes, catalogue);
        let like = likes.first().map(|like| like.0);
        let sizes = self.new_sizes(&sizes);
        let pads = self.pads_of_sizes(&pads, &sizes);
        let sizes = with_pads(sizes, &pads, (like, kind), catalogue);
        let population = self.population(population.as_ref(), catalogue);
        let habits = Habits {
            by: self.word(by.as_ref(), "measured-by", MEASURERS).unwrap_or(Measurer::Staff),
            with: self.word(with.as_ref(), "measured-with", TOOLS).unwrap_or(Tool::Caliper),
        };
        let Some(population) = population else { return Ok(None) };
        let tried = self.tries(&tries, &sizes, (population, habits), (catalogue, sources));
        Ok(Some(Experience {
            sizes,
            statements: statements(catalogue, &likes, by_eye, kind),
            tried,
            population: population.id.clone(),
            seed: typed.common.seed,
        }))
    }

    /// `MODEL` or `MODEL/COMPARISON`, each model once.
    fn likes<'a>(&mut self, all: &[Said], catalogue: &'a Catalogue) -> Vec<(&'a Model, Comparison)> {
        let mut likes: Vec<(&Model, Comparison)> = Vec::new();
        for said in all {
            let Some((model, comparison)) = self.like(said, catalogue) else { continue };
            if likes.iter().any(|(known, _)| known.id == model.id) {
                let message = format!("`{}` is named twice", model.id);
                self.error("like-form", said, message, "the second one", "say once what it is like");
            }
            likes.push((model, comparison));
        }
        likes
    }

    fn like<'a>(&mut self, said: &Said, catalogue: &'a Catalogue) -> Option<(&'a Model, Comparison)> {
        let words = Comparison::ALL.map(|comparison| (comparison.id(), comparison));
        match &pieces(said, '/')[..] {
            [model] => Some((self.model(&trimmed(model), catalogue)?, Comparison::Same)),
            [model, comparison] => {
                let comparison = self.word(Some(&trimmed(comparison)), "a comparison", &words);
                Some((self.model(&trimmed(model), catalogue)?, comparison?))
            }
            _ => {
                let help = "write for example wexmarsh-one/rounder, or wexmarsh-one for the same shape";
                self.error("like-form", said, "a likeness is MODEL or MODEL/COMPARISON", "not of this form", help);
                None
            }
        }
    }

    /// `LABEL=FROM-TO`, each label once.
    fn new_sizes(&mut self, all: &[Said]) -> Vec<(Id, (f64, f64))> {
        let mut sizes: Vec<(Id, (f64, f64))> = Vec::new();
        for said in all {
            let Some((label, range)) = self.new_size(said) else { continue };
            if sizes.iter().any(|(known, _)| known.as_str().eq_ignore_ascii_case(label.as_str())) {
                let message = format!("size `{label}` is given twice");
                self.error("size-form", said, message, "the second one", "give each size one label of its own");
                continue;
            }
            sizes.push((label, range));
        }
        sizes
    }

    fn new_size(&mut self, said: &Said) -> Option<(Id, (f64, f64))> {
        let help = "write for example M=57-58: the label, and the cm that stand on it";
        let Some((label, range)) = halves(said, '=') else {
            self.error("size-form", said, "a size is LABEL=FROM-TO", "not of this form", help);
            return None;
        };
        let (label, range) = (trimmed(&label), trimmed(&range));
        let Ok(id) = Id::try_from(label.text.as_str()) else {
            self.error("size-form", &label, "a label is 1 to 48 letters, digits and single hyphens", "no label", help);
            return None;
        };
        let number = |text: &str| text.trim().trim_end_matches("cm").trim_end().parse::<f64>().ok();
        let mut ends = range.text.split(['-', '–']).map(number);
        let (Some(Some(from)), to, None) =
            (ends.next(), ends.next().unwrap_or_else(|| number(&range.text)), ends.next())
        else {
            let help = "write for example M=57-58 or M=57.5-58.5: two numbers in cm with a hyphen between them";
            self.error("size-form", &range, "this is no range of circumference", "FROM-TO in cm", help);
            return None;
        };
        let to = to.filter(|to| LABEL_CM.contains(&from) && LABEL_CM.contains(to) && from <= *to);
        if to.is_none() {
            let message = "a range goes from the smaller to the larger number, both from 44 to 70 cm";
            self.error("size-form", &range, message, "out of bounds, or backwards", help);
        }
        Some((id, (10.0 * from, 10.0 * to?)))
    }

    /// `LABEL=ZONE:MM,...`, each label once.
    fn pads_of_sizes(&mut self, all: &[Said], sizes: &[(Id, (f64, f64))]) -> Vec<(Id, NamedPads)> {
        let mut named: Vec<(Id, NamedPads)> = Vec::new();
        for said in all {
            let Some((label, pads)) = halves(said, '=') else {
                let help = "write for example M=brow:10,rear:13,sides:12,cheeks:32";
                self.error("pads-form", said, "pads are LABEL=ZONE:MM,ZONE:MM", "not of this form", help);
                continue;
            };
            let labels = sizes.iter().map(|(label, _)| label).collect_vec();
            let (Some(label), Some(pads)) = (self.new_label(&trimmed(&label), &labels), self.named_pads(&pads)) else {
                continue;
            };
            if named.iter().any(|(known, _)| *known == label) {
                let message = format!("the pads of `{label}` are given twice");
                self.error("pads-form", said, message, "the second ones", "give all pads of a size together");
            }
            named.push((label, pads));
        }
        named
    }

    /// One of the new labels, whatever the case it was typed in.
    fn new_label(&mut self, said: &Said, labels: &[&Id]) -> Option<Id> {
        let label = labels.iter().find(|label| label.as_str().eq_ignore_ascii_case(&said.text));
        // Where a `--size` was refused, its label may be the one that is meant.
        if label.is_none() && !labels.is_empty() {
            let message = format!("no --size says what `{}` is", shown(&said.text));
            self.not_known("unknown-size", said, message, &labels.iter().map(|label| label.as_str()).collect_vec());
        }
        label.map(|label| (*label).clone())
    }

    /// `ZONE:MM,ZONE:none`, each zone once.
    fn named_pads(&mut self, said: &Said) -> Option<NamedPads> {
        let words = Zone::ALL.map(|zone| (zone.name(), zone));
        let mut pads = NamedPads::new();
        for piece in pieces(said, ',') {
            let Some((zone, thickness)) = halves(&piece, ':') else {
                let help = "write for example brow:10,rear:13,sides:12,cheeks:32";
                self.error("pads-form", &trimmed(&piece), "a pad is ZONE:MM", "not of this form", help);
                return None;
            };
            let zone_said = trimmed(&zone);
            let zone = self.word(Some(&zone_said), "a pad zone", &words)?;
            let thickness = self.thickness(zone, &trimmed(&thickness))?;
            if pads.iter().any(|(known, _)| *known == zone) {
                let message = format!("the pad of the {} is given twice", zone.name());
                self.error("pads-form", &zone_said, message, "the second one", "give each zone once");
                return None;
            }
            pads.push((zone, thickness));
        }
        Some(pads)
    }

    fn thickness(&mut self, zone: Zone, said: &Said) -> Option<Option<f64>> {
        if said.text == "none" && matches!(zone, Zone::Crown | Zone::Cheeks) {
            return Some(None);
        }
        let text = said.text.trim_end_matches("mm").trim_end();
        let thickness = text.parse::<f64>().ok().filter(|mm| PAD_MM.contains(mm));
        if thickness.is_none() {
            let message = format!("`{}` is no thickness of a pad", shown(&said.text));
            let help = "write mm from 1 to 60, with a point for decimals; only crown and cheeks can be `none`";
            self.error("pads-form", said, message, "1 to 60 mm", help);
        }
        thickness.map(Some)
    }
}

/// The sizes with their standard pads: those that were named, and the others from elsewhere.
fn with_pads<'a>(
    sizes: Vec<(Id, (f64, f64))>,
    named: &[(Id, NamedPads)],
    (like, kind): (Option<&'a Model>, Option<Kind>),
    catalogue: &'a Catalogue,
) -> Vec<NewSize<'a>> {
    let with_pads = |(label, circumference): (Id, (f64, f64))| {
        let centre = f64::midpoint(circumference.0, circumference.1);
        let (mut standard, source) = standard_pads(catalogue, like, kind, centre);
        let own = named.iter().find(|(of, _)| *of == label).map(|(_, pads)| pads.as_slice()).unwrap_or_default();
        mount(&mut standard, own);
        let given = own.iter().map(|(zone, _)| *zone).sorted().collect();
        NewSize { label, circumference, standard, given, source }
    };
    sizes.into_iter().map(with_pads).collect()
}

/// Puts pads in the place of those that are there.
fn mount(set: &mut PadSet, pads: &[(Zone, Option<f64>)]) {
    for (zone, thickness) in pads {
        *set.get_mut(*zone) = *thickness;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::cli::args::{TypedCommand, parse};
    use proptest::prelude::*;
    use std::sync::LazyLock;

    static RANGE: LazyLock<Catalogue> = LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).unwrap());

    /// The problems, or what they would be about.
    fn resolved(arguments: &[&str]) -> Result<usize, Vec<Diagnostic>> {
        let program = ["lidladder", "sketch", "--size=M=57-58"];
        let arguments = program.iter().chain(arguments).map(std::ffi::OsString::from);
        let Ok(typed) = parse(arguments) else { panic!("the parser takes any value of an option") };
        let TypedCommand::Sketch(typed) = typed.command else { panic!("it is a sketch") };
        let (mut resolver, mut sources) = (Resolver::default(), Sources::default());
        let experience = resolver.experience(&typed, &RANGE, &mut sources)?;
        let problems = resolver.finish(experience.map(|experience| experience.tried.len()));
        for problem in problems.as_ref().err().into_iter().flatten() {
            let span = problem.place.as_ref().expect("it was typed somewhere").span;
            assert!(sources.get(span.source).text.get(span.start..span.end).is_some(), "{span:?}");
        }
        problems
    }

    proptest! {
        #[test]
        fn nothing_that_is_typed_makes_it_stumble(text in "[MmLl/=:,.+±\\- 0-9a-zöß\u{202e}]{0,24}", way in 0..5_usize) {
            let option = ["--tried", "--size", "--pads", "--like", "--shape"][way];
            let _: Result<usize, Vec<Diagnostic>> = resolved(&[&format!("{option}={text}")]);
        }

        #[test]
        fn a_well_formed_try_is_taken(c in 450..690_u32, sd in 0..40_u32, sides in 1..60_u32) {
            prop_assert_eq!(resolved(&[&format!("--tried=M/ c={c}+/-{sd} , b=15cm/fits/sides:{sides}mm")]).ok(), Some(1));
        }
    }
}
