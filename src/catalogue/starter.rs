//! What a new profiles folder holds: files to begin with, or the demo range to play with.

use super::BUILT_IN;
use crate::profile::FileSchema;

/// What to begin a folder with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beginning {
    /// A commented example of every file, to copy and change.
    Starter,
    /// The whole demo range as it stands.
    Demo,
}

/// A file of a new folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewFile {
    /// Its path within the folder, with `/` between the parts.
    pub path: String,
    /// Its whole text.
    pub text: String,
}

/// Files of the starter that the demo range doesn't share.
const OWN: &[(&str, &str)] = &[
    ("shop.yaml", include_str!("starter/shop.yaml")),
    ("fallbacks.yaml", include_str!("starter/fallbacks.yaml")),
    ("helmets/example.yaml", include_str!("starter/helmets/example.yaml")),
];

/// The files of a new folder, each below the folders that it needs: profiles first, then the schemas of all of them.
#[must_use]
pub fn beginning(beginning: Beginning) -> Vec<NewFile> {
    let mut files = match beginning {
        Beginning::Starter => starter(),
        Beginning::Demo => BUILT_IN.iter().map(|(path, text)| NewFile::new(path, (*text).to_owned())).collect(),
    };
    files.extend(FileSchema::ALL.map(|schema| NewFile::new(&format!("schema/{}", schema.file_name()), schema.text())));
    files
}

fn starter() -> Vec<NewFile> {
    let populations = BUILT_IN.iter().filter(|(path, _)| path.starts_with("populations/"));
    let texts = OWN.iter().chain(populations);
    texts.map(|(path, text)| NewFile::new(path, format!("{}\n{text}", schema_line(path)))).collect()
}

/// The comment by which an editor finds the schema of a file, told from where the file lies.
fn schema_line(path: &str) -> String {
    let schema = match path.split_once('/') {
        Some(("helmets", _)) => FileSchema::Helmets,
        Some(_) => FileSchema::Population,
        None if path == "shop.yaml" => FileSchema::Shop,
        None => FileSchema::Fallbacks,
    };
    let up = "../".repeat(path.matches('/').count());
    format!("# yaml-language-server: $schema={up}schema/{}", schema.file_name())
}

impl NewFile {
    fn new(path: &str, text: String) -> Self {
        Self { path: path.to_owned(), text }
    }
}
