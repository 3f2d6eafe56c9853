//! Pages for a browser: each is one file by itself, without scripts and without anything from elsewhere.

mod audit;
mod away;
mod block;
mod cards;
mod cut;
mod fallbacks;
mod fit;
mod head;
mod learn;
mod look;
mod pads;
mod plan;
mod range;
mod sheet;
mod why;

pub use audit::audit;
pub use away::away;
pub use cards::cards;
pub use fallbacks::fallbacks;
pub use fit::fit;
pub use learn::learn;
pub use pads::pads;
pub use plan::plan;
pub use range::{RangeReport, range, range_change, range_design, range_keep, range_maker, range_stock};
pub use sheet::sheet;
pub use why::why;

use crate::render::mark::OF_A_PAGE;
use crate::render::markup::escaped;
use crate::render::svg::Kind;
use itertools::Itertools;

/// A page: who it is from and what it is about, what it tells, and what must be said at its end.
#[derive(Debug, Default)]
struct Page<'a> {
    title: &'a str,
    /// Whose page, or about whom; may be empty.
    about: &'a str,
    /// Kinds of the pictures on it.
    pictures: &'a [Kind],
    /// Rules of style beyond those of all pages.
    style: &'a str,
    main: String,
    footer: String,
}

impl Page<'_> {
    /// The page as a file.
    fn finish(&self) -> String {
        let (title, about) = (escaped(self.title), escaped(self.about));
        let about = if about.is_empty() { about } else { format!("<p>{about}</p>\n") };
        let pictures = self.pictures.iter().unique().map(|kind| kind.style()).join("");
        let [look, style, main] = [&look::look(), self.style, &self.main];
        let footer = match self.footer.as_str() {
            "" => String::new(),
            words => format!("<footer>\n{words}</footer>\n"),
        };
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
             {OF_A_PAGE}\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n\
             <title>{title}</title>\n<style>\n{look}{pictures}{style}</style>\n</head>\n<body>\n\
             <header>\n<h1>{title}</h1>\n{about}</header>\n<main>\n{main}</main>\n{footer}</body>\n</html>\n"
        )
    }
}
