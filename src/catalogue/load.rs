//! Reading a whole set of profiles: from a folder, or the demo range that is compiled in.

use super::files::{profile_files, profile_text};
use super::{BUILT_IN, Catalogue};
use crate::diag::{Code, Diagnostic, SourceId, Sources, Span, known_here, more, note};
use crate::head::Population;
use crate::profile::{self, Model, Place, PlacedEdge, PlacedShop, SizeHint};
use crate::unit::Id;
use std::path::{Path, PathBuf};

/// Where profiles come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origin {
    /// The demo range.
    BuiltIn,
    /// A folder with `shop.yaml`, `fallbacks.yaml`, `helmets/` and `populations/`.
    Folder(PathBuf),
}

/// Loads and cross-checks a set of profiles; the texts go into `sources`. All problems come at once.
pub fn load(origin: &Origin, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    match origin {
        Origin::BuiltIn => load_texts(BUILT_IN, "built-in/", sources),
        Origin::Folder(folder) => {
            let mut parts = Parts::default();
            parts.read_folder(folder, sources);
            parts.join(sources)
        }
    }
}

/// The same from texts, each with its path within the folder; `before` goes before the path where problems name it.
pub fn load_texts(texts: &[(&str, &str)], before: &str, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let mut parts = Parts::default();
    for (path, text) in texts {
        let source = sources.add(format!("{before}{path}"), *text);
        parts.read(path, source, text);
    }
    parts.join(sources)
}

/// Where so many problems were found, the rest of the files isn't read.
const MOST_PROBLEMS_OF_ALL: usize = 1000;

/// Models and sizes that a set may have: every size is tried on every head.
const MOST_MODELS: usize = 1000;
const MOST_SIZES: usize = 8000;

/// What was read so far, file by file.
#[derive(Default)]
struct Parts {
    shop: Option<PlacedShop>,
    models: Vec<(Model, Place)>,
    populations: Vec<(Population, Place)>,
    edges: Vec<PlacedEdge>,
    problems: Vec<Diagnostic>,
}

impl Parts {
    fn read_folder(&mut self, folder: &Path, sources: &mut Sources) {
        for file in profile_files(folder, &mut self.problems) {
            if self.problems.len() > MOST_PROBLEMS_OF_ALL {
                self.problems.push(more(None));
                return;
            }
            match profile_text(&folder.join(&file)) {
                Err(problem) => self.problems.push(problem),
                Ok((name, text)) => {
                    let source = sources.add(name, text);
                    self.read(&file.to_string_lossy(), source, &sources.get(source).text);
                }
            }
        }
    }

    /// Reads one file by its path within the folder.
    fn read(&mut self, path: &str, source: SourceId, text: &str) {
        let outcome = if path == "shop.yaml" {
            profile::shop(source, text).map(|shop| self.shop = Some(shop))
        } else if path == "fallbacks.yaml" {
            profile::fallbacks(source, text).map(|edges| self.edges = edges)
        } else if path.starts_with("helmets") {
            profile::helmets(source, text).map(|models| self.models.extend(models))
        } else {
            profile::population(source, text).map(|population| self.populations.push(population))
        };
        if let Err(problems) = outcome {
            self.problems.extend(problems);
        }
    }

    /// Checks what files say about each other.
    fn join(mut self, sources: &Sources) -> Result<Catalogue, Vec<Diagnostic>> {
        // Stable: of two with one id, the one that was read first stays first.
        self.models.sort_by(|a, b| a.0.id.cmp(&b.0.id));
        self.populations.sort_by(|a, b| a.0.id.cmp(&b.0.id));
        self.doubles(sources);
        // A name that a broken file would have defined is no mistake of the file that uses it.
        let complete = self.problems.is_empty();
        if complete {
            self.dangling_edges(sources);
            self.unknown_populations(sources);
        }
        let sizes = self.models.iter().map(|(model, _)| model.sizes().count()).sum();
        for (what, count, most) in [("models", self.models.len(), MOST_MODELS), ("sizes", sizes, MOST_SIZES)] {
            if count > most {
                let message = format!("these profiles have {count} {what}, but at most {most} are read");
                let problem = Diagnostic::error(Code("profile-too-many"), message)
                    .help("leave out the files of families that are no longer sold");
                self.problems.push(problem);
            }
        }
        if self.models.is_empty() && self.problems.is_empty() {
            let problem = Diagnostic::error(Code("profile-empty"), "these profiles have no helmet")
                .help("write at least one family of helmets into the folder helmets");
            self.problems.push(problem);
        }
        if self.shop.is_none() && self.problems.is_empty() {
            let problem = Diagnostic::error(Code("profile-empty"), "these profiles have no shop.yaml")
                .help("write the shop's assumptions into it; compare with the built-in range");
            self.problems.push(problem);
        }
        match self.shop {
            Some(placed) if self.problems.is_empty() => Ok(Catalogue {
                shop: placed.shop,
                models: self.models.into_iter().map(|(model, _)| model).collect(),
                populations: self.populations.into_iter().map(|(population, _)| population).collect(),
                edges: self.edges.into_iter().map(|placed| placed.edge).collect(),
            }),
            _ => Err(self.problems),
        }
    }

    fn doubles(&mut self, sources: &Sources) {
        let models = self.models.iter().map(|(model, place)| (model.id.as_str(), place));
        let populations = self.populations.iter().map(|(population, place)| (population.id.as_str(), place));
        for (what, named) in [("model", models.collect::<Vec<_>>()), ("population", populations.collect())] {
            let mut doubles = Vec::new();
            for pair in named.windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                note(&mut doubles, || {
                    Diagnostic::error(Code("profile-duplicate"), format!("{what} `{}` is defined twice", pair[0].0))
                        .at(pair[1].1.span(sources), "the second one")
                        .see(pair[0].1.span(sources), "the first one")
                        .help("give one of them another id, or take it out")
                });
            }
            self.problems.extend(doubles);
        }
    }

    fn dangling_edges(&mut self, sources: &Sources) {
        for placed in &self.edges {
            for (id, place) in [(&placed.edge.from, &placed.from), (&placed.edge.to, &placed.to)] {
                if find(&self.models, id).is_none() {
                    let known = self.models.iter().map(|(model, _)| model.id.as_str());
                    note(&mut self.problems, || unknown("model", id.as_str(), place.span(sources), known));
                }
            }
            if let (Some(SizeHint::Label(label)), Some(target)) =
                (&placed.edge.size, find(&self.models, &placed.edge.to))
                && !target.sizes().any(|(_, size)| size.label == *label)
            {
                let known = target.sizes().map(|(_, size)| size.label.as_str());
                note(&mut self.problems, || unknown("size", label.as_str(), placed.size.span(sources), known));
            }
        }
    }

    fn unknown_populations(&mut self, sources: &Sources) {
        let Some(placed) = &self.shop else { return };
        let named =
            [(&placed.shop.population, &placed.population), (&placed.shop.face_width_from, &placed.face_width_from)];
        for (id, place) in named {
            if !self.populations.iter().any(|(population, _)| population.id == *id) {
                let known = self.populations.iter().map(|(population, _)| population.id.as_str());
                self.problems.push(unknown("population", id.as_str(), place.span(sources), known));
            }
        }
    }
}

/// A model by its id, among models in the order of their ids.
fn find<'m>(models: &'m [(Model, Place)], id: &Id) -> Option<&'m Model> {
    let at = models.binary_search_by(|(model, _)| model.id.cmp(id)).ok()?;
    Some(&models[at].0)
}

fn unknown<'a>(what: &str, name: &str, place: Span, known: impl Iterator<Item = &'a str>) -> Diagnostic {
    let known: Vec<&str> = known.collect();
    let help = known_here(name, &known);
    let code = match what {
        "model" => "unknown-model",
        "size" => "unknown-size",
        _ => "unknown-population",
    };
    Diagnostic::error(Code(code), format!("there is no {what} `{name}`")).at(place, "not defined").help(help)
}
