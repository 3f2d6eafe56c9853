//! What is to change about a range, from what was typed.

use super::{Asked, Resolver, shown};
use crate::catalogue::{Catalogue, helmets_beside};
use crate::cli::args::TypedChange;
use crate::diag::{Code, Diagnostic, Said, Sources, note};
use crate::profile::{Model, SHAPE_INDEX, Zone};
use crate::range::{Alteration, LeftOut, What, like, without_pads};
use crate::unit::{Id, plain};
use itertools::Itertools;
use std::collections::BTreeMap;
use std::path::Path;

/// The alterations in the order of the options, or everything that is wrong with them.
pub(in crate::cli) fn alterations(
    typed: &TypedChange,
    asked: &Asked<'_>,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Vec<Alteration>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let mut altered = Altered { asked, catalogue, alterations: Vec::new() };
    for id in &typed.drop {
        altered.drop(&mut resolver, &sources.say("--drop", id.clone()));
    }
    for text in &typed.add {
        let said = sources.say("--add", text.clone());
        match text.split_once('@').filter(|_| !is_file(text)) {
            Some((model, rest)) => altered.add_like(&mut resolver, &said, model, rest),
            None => altered.add_file(&mut resolver, &said, sources),
        }
    }
    let pads = typed.without_pads.iter().map(|text| sources.say("--without-pads", text.clone())).collect_vec();
    altered.leave_out(&mut resolver, &pads);
    resolver.finish(Some(altered.alterations))
}

/// The place among the models that were asked for of one of them.
pub(in crate::cli) fn column(
    resolver: &mut Resolver,
    said: &Said,
    asked: &Asked<'_>,
    catalogue: &Catalogue,
) -> Option<usize> {
    let model = resolver.model(said, catalogue)?;
    let column = asked.models.iter().position(|asked| asked.id == model.id);
    if column.is_none() {
        let message = format!("{} is none of the models that were asked for", model.name);
        let help = "the filters leave it out: loosen them, or leave it out here, too";
        resolver.error("not-asked-for", said, message, "left out", help);
    }
    column
}

/// Names of files end so; a folder may well hold an `@`.
fn is_file(text: &str) -> bool {
    Path::new(text).extension().is_some_and(|ext| ext == "yaml" || ext == "yml")
}

/// Alterations in the making.
struct Altered<'t> {
    asked: &'t Asked<'t>,
    catalogue: &'t Catalogue,
    alterations: Vec<Alteration>,
}

impl Altered<'_> {
    fn drop(&mut self, resolver: &mut Resolver, said: &Said) {
        let Some(column) = column(resolver, said, self.asked, self.catalogue) else { return };
        if !self.is_dropped(column) {
            let model = self.asked.models[column];
            let (id, name) = (model.id.to_string(), model.name.clone());
            self.alterations.push(Alteration { what: What::Dropped, id, name, out: Some(column), put: None });
        }
    }

    /// `MODEL@INDEX`, with sizes behind slashes where not all are meant.
    fn add_like(&mut self, resolver: &mut Resolver, said: &Said, model: &str, rest: &str) {
        let part = |text: &str| Said { text: text.to_owned(), span: said.span };
        let mut parts = rest.split('/');
        let index = resolver.number(&part(parts.next().unwrap_or_default()), "a shape index, such as 83");
        let Some(model) = resolver.model(&part(model), self.catalogue) else { return };
        let sizes = parts.map(|label| resolver.size(&part(label), model)).collect_vec();
        let Some((index, sizes)) = index.zip(sizes.into_iter().collect::<Option<Vec<_>>>()) else { return };
        if !SHAPE_INDEX.contains(&index) {
            let message = format!("no helmet has the shape index {}", plain(index));
            let label = format!("expected {} to {}", SHAPE_INDEX.start(), SHAPE_INDEX.end());
            resolver.error("add-form", said, message, &label, "write for example wexmarsh-one@83");
            return;
        }
        let mut put = like(model, self.free_id(&said.text), index, self.catalogue);
        put.shells.iter_mut().for_each(|shell| {
            shell.sizes.retain(|size| sizes.is_empty() || sizes.contains(&size.label));
        });
        put.shells.retain(|shell| !shell.sizes.is_empty());
        put.name = format!("{} at {}", model.name, plain(index));
        let what = What::Like { name: model.name.clone(), from: model.interior.shape_index };
        self.come_in(resolver, said, what, said.text.clone(), put);
    }

    fn add_file(&mut self, resolver: &mut Resolver, said: &Said, sources: &mut Sources) {
        match helmets_beside(Path::new(&said.text), self.catalogue, sources) {
            Err(problems) => resolver.problems.extend(problems),
            Ok(models) => {
                for (model, span) in models {
                    let written = Said { text: model.id.to_string(), span };
                    self.add_written(resolver, &written, model);
                }
            }
        }
    }

    fn add_written(&mut self, resolver: &mut Resolver, written: &Said, mut model: Model) {
        let id = model.id.to_string();
        if let Some(column) = self.asked.models.iter().position(|asked| asked.id == model.id) {
            if !self.is_dropped(column) {
                let message = format!("there is a model `{id}` in the range already");
                let help = format!("give it another id, or drop the old one in the same call: --drop {id}");
                resolver.error("comes-in-twice", written, message, "the new one", &help);
                return;
            }
            // One that comes back as it was is the same helmet.
            if *self.asked.models[column] != model {
                model.id = self.free_id(&id);
            }
        }
        self.come_in(resolver, written, What::Added, id, model);
    }

    fn come_in(&mut self, resolver: &mut Resolver, said: &Said, what: What, id: String, model: Model) {
        if self.alterations.iter().any(|earlier| earlier.put.is_some() && earlier.id == id) {
            let message = format!("`{}` comes in twice", shown(&id));
            resolver.error("comes-in-twice", said, message, "the second one", "name it once");
            return;
        }
        self.alterations.push(Alteration { what, id, name: model.name.clone(), out: None, put: Some(model) });
    }

    fn leave_out(&mut self, resolver: &mut Resolver, pads: &[Said]) {
        let mut by_column = BTreeMap::<usize, Vec<LeftOut>>::new();
        for said in pads {
            if let Some((column, left_out)) = self.left_out(resolver, said) {
                by_column.entry(column).or_default().push(left_out);
            }
        }
        for (column, left_out) in by_column {
            let model = self.asked.models[column];
            let put = without_pads(model, &left_out);
            let what = What::WithoutPads(left_out);
            let (id, name) = (model.id.to_string(), model.name.clone());
            self.alterations.push(Alteration { what, id, name, out: Some(column), put: Some(put) });
        }
    }

    /// `MODEL`, `MODEL/ZONE` or `MODEL/ZONE=MM`.
    fn left_out(&self, resolver: &mut Resolver, said: &Said) -> Option<(usize, LeftOut)> {
        let part = |text: &str| Said { text: text.to_owned(), span: said.span };
        let (model, pads) = said.text.split_once('/').map_or((said.text.as_str(), None), |(a, b)| (a, Some(b)));
        let column = column(resolver, &part(model), self.asked, self.catalogue)?;
        let left_out = match pads {
            None => LeftOut::All,
            Some(pads) if pads.contains('=') => {
                let (zone, mm) = resolver.pad_said(&part(pads))?;
                LeftOut::Pad(zone, mm)
            }
            Some(zone) => {
                let zones = Zone::ALL.map(|zone| (zone.name(), zone));
                LeftOut::Zone(resolver.word(Some(&part(zone)), "a zone", &zones)?)
            }
        };
        let model = self.asked.models[column];
        if self.is_dropped(column) {
            let message = format!("{} is dropped: it keeps no pads", model.name);
            resolver.error("nothing-left-out", said, message, "dropped", "name it only once, here or behind --drop");
            return None;
        }
        let pads = model.shells.iter().flat_map(|shell| &shell.pads).collect_vec();
        if !pads.iter().any(|pad| left_out.holds(pad.zone, pad.thickness)) {
            let sold = Zone::ALL.map(|zone| {
                let of_zone = pads.iter().filter(|pad| pad.zone == zone).map(|pad| pad.thickness);
                let mm = of_zone.sorted_by(f64::total_cmp).map(plain).dedup().join(", ");
                if mm.is_empty() { mm } else { format!("{} {mm}", zone.name()) }
            });
            let sold = sold.iter().filter(|zone| !zone.is_empty()).join("; ");
            let help = match sold.as_str() {
                "" => format!("no pads are sold for {}", model.name),
                sold => format!("on offer for {}: {sold} mm", model.name),
            };
            let message = format!("{} has no such pads on offer", model.name);
            note(&mut resolver.problems, || {
                Diagnostic::error(Code("nothing-left-out"), message).at(said.span, "not on offer").help(help)
            });
            return None;
        }
        Some((column, left_out))
    }

    fn is_dropped(&self, column: usize) -> bool {
        self.alterations.iter().any(|earlier| earlier.what == What::Dropped && earlier.out == Some(column))
    }

    /// An id that no model has: profiles of one id are off together.
    fn free_id(&self, near: &str) -> Id {
        let put = self.alterations.iter().filter_map(|earlier| earlier.put.as_ref());
        let taken = self.catalogue.models().iter().chain(put).map(|model| &model.id).collect_vec();
        let mut candidates = (1..).map(|number| Id::nearest_to(&format!("new {number} {near}")));
        candidates.find(|id| !taken.contains(&id)).unwrap_or_else(|| Id::nearest_to(near))
    }
}

impl Resolver {
    /// A share in percent, above 0 and at most 100.
    pub(in crate::cli) fn share(&mut self, said: &Said) -> Option<f64> {
        let number = said.text.trim().trim_end_matches('%').trim_end().to_owned();
        let percent = self.number(&Said { text: number, span: said.span }, "a share in percent, such as 99")?;
        if percent > 100.0 {
            let message = format!("{} % are more than all", plain(percent));
            self.error("not-a-share", said, message, "at most 100", "write for example 99");
            return None;
        }
        Some(percent / 100.0)
    }
}
