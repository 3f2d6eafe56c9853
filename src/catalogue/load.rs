//! Reading a whole set of profiles: from a folder, or the demo range that is compiled in.

use super::{BUILT_IN, Catalogue};
use crate::diag::{Code, Diagnostic, SourceId, Sources, Span, nearest};
use crate::head::Population;
use crate::profile::{self, Model, Place, PlacedEdge, PlacedShop, SizeHint};
use std::fs;
use std::io::Read;
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
    let mut parts = Parts::default();
    match origin {
        Origin::BuiltIn => {
            for (path, text) in BUILT_IN {
                let source = sources.add(format!("built-in/{path}"), *text);
                parts.read(path, source, text);
            }
        }
        Origin::Folder(folder) => parts.read_folder(folder, sources),
    }
    parts.join(sources)
}

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
        if let Err(fault) = fs::read_dir(folder) {
            let help = "name a folder with shop.yaml, fallbacks.yaml, helmets and populations";
            return self.unreadable(folder, &fault, help);
        }
        let mut files: Vec<PathBuf> = vec!["shop.yaml".into(), "fallbacks.yaml".into()];
        for sub in ["helmets", "populations"] {
            match yaml_files(&folder.join(sub)) {
                Ok(names) => files.extend(names.into_iter().map(|name| Path::new(sub).join(name))),
                Err(fault) => self.unreadable(
                    &folder.join(sub),
                    &fault,
                    "a profiles folder has the subfolders helmets and populations",
                ),
            }
        }
        for file in files {
            let path = folder.join(&file);
            let name = path.to_string_lossy().into_owned();
            let help = "a profiles folder has shop.yaml and fallbacks.yaml; compare with the built-in range";
            match read_capped(&path) {
                Err(fault) => self.unreadable(&path, &fault, help),
                Ok(bytes) => match profile::text_of(&name, bytes) {
                    Err(problem) => self.problems.push(problem),
                    Ok(text) => {
                        let source = sources.add(name, text);
                        self.read(&file.to_string_lossy(), source, &sources.get(source).text);
                    }
                },
            }
        }
    }

    fn unreadable(&mut self, path: &Path, fault: &std::io::Error, help: &str) {
        let message = format!("can't read {}: {fault}", path.display());
        self.problems.push(Diagnostic::error(Code("profile-unreadable"), message).help(help));
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
        if self.models.is_empty() && self.problems.is_empty() {
            let problem = Diagnostic::error(Code("profile-empty"), "these profiles have no helmet")
                .help("write at least one family of helmets into the folder helmets");
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
            for pair in named.windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                let message = format!("{what} `{}` is defined twice", pair[0].0);
                let problem = Diagnostic::error(Code("profile-duplicate"), message)
                    .at(pair[1].1.span(sources), "the second one")
                    .see(pair[0].1.span(sources), "the first one")
                    .help("give one of them another id, or take it out");
                self.problems.push(problem);
            }
        }
    }

    fn dangling_edges(&mut self, sources: &Sources) {
        for placed in &self.edges {
            for (id, place) in [(&placed.edge.from, &placed.from), (&placed.edge.to, &placed.to)] {
                if !self.models.iter().any(|(model, _)| model.id == *id) {
                    let known = self.models.iter().map(|(model, _)| model.id.as_str());
                    self.problems.push(unknown("model", id.as_str(), place.span(sources), known));
                }
            }
            let target = self.models.iter().find(|(model, _)| model.id == placed.edge.to);
            if let (Some(SizeHint::Label(label)), Some((target, _))) = (&placed.edge.size, target)
                && !target.sizes().any(|(_, size)| size.label == *label)
            {
                let known = target.sizes().map(|(_, size)| size.label.as_str());
                self.problems.push(unknown("size", label.as_str(), placed.size.span(sources), known));
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

fn unknown<'a>(what: &str, name: &str, place: Span, known: impl Iterator<Item = &'a str>) -> Diagnostic {
    let known: Vec<&str> = known.collect();
    let help = match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("known here: {}", known.join(", ")),
    };
    let code = match what {
        "model" => "unknown-model",
        "size" => "unknown-size",
        _ => "unknown-population",
    };
    Diagnostic::error(Code(code), format!("there is no {what} `{name}`")).at(place, "not defined").help(help)
}

/// The bytes of a file, but hardly more than any text is read of: a device that never ends can't fill the memory.
pub fn read_capped(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(profile::MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Names of the `.yaml` files of a folder, sorted, so that the order on disk changes nothing.
fn yaml_files(folder: &Path) -> std::io::Result<Vec<std::ffi::OsString>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let name = entry?.file_name();
        if Path::new(&name).extension().is_some_and(|ext| ext == "yaml" || ext == "yml") {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}
