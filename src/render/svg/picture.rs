//! A drawing that stands by itself as a file, or on a page.

use super::text::number;
use crate::layered::Extent;
use crate::render::colour::{DARK, LIGHT, Scheme};
use crate::render::mark::OF_A_PICTURE;
use crate::render::markup::escaped;

/// A drawing, whole in itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What its rules of style begin with: pictures of several kinds may stand on one page.
    pub(super) kind: Kind,
    /// What it is called.
    pub(super) title: String,
    /// The same as the drawing says, for those who don't see it.
    pub(super) description: String,
    pub(super) size: Extent,
    /// The elements.
    pub(super) body: String,
    /// Whether it has links: such a picture is a group of things rather than one image.
    pub(super) is_followed: bool,
}

/// What a picture shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(in crate::render) enum Kind {
    /// A head in a helmet.
    Cut,
    /// Models and the rules between them.
    Graph,
    /// Customers and helmets by circumference and shape index.
    Map,
    /// A plan.
    Tree,
    /// Figures side by side.
    Bars,
}

impl Picture {
    /// As a file.
    #[must_use]
    pub fn file(&self) -> String {
        let head = format!("{OF_A_PICTURE}\n<style>\n{}</style>\n", self.kind.style());
        self.written(" xmlns=\"http://www.w3.org/2000/svg\"", &head)
    }

    /// As a part of a page that has the style of its kind.
    pub(in crate::render) fn inline(&self) -> String {
        self.written("", "")
    }

    /// What it shows.
    pub(in crate::render) fn kind(&self) -> Kind {
        self.kind
    }

    /// What it is called.
    pub(in crate::render) fn title(&self) -> &str {
        &self.title
    }

    /// Its width where it has room.
    pub(in crate::render) fn width(&self) -> f64 {
        self.size.width
    }

    fn written(&self, namespace: &str, head: &str) -> String {
        let [w, h] = [self.size.width, self.size.height].map(number);
        let Self { title, description, body, .. } = self;
        let class = self.kind.class();
        let role = if self.is_followed { "group" } else { "img" };
        format!(
            "<svg{namespace} class=\"{class}\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" role=\"{role}\">\n\
             <title>{}</title>\n<desc>{}</desc>\n{head}<rect class=\"ground\" width=\"{w}\" height=\"{h}\"/>\n{body}</svg>\n",
            escaped(title),
            escaped(description)
        )
    }
}

impl Kind {
    fn class(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Graph => "graph",
            Self::Map => "map",
            Self::Tree => "tree",
            Self::Bars => "bars",
        }
    }

    /// The rules of style, for light and dark screens; paper is light.
    pub(in crate::render) fn style(self) -> String {
        let class = self.class();
        let (shape, colours): (&str, fn(&Scheme) -> String) = match self {
            Self::Cut => (super::cut::SHAPE, super::cut::colours),
            Self::Graph => (super::paint::SHAPE, super::paint::colours),
            Self::Map => (super::map::SHAPE, super::map::colours),
            Self::Tree => (super::tree::SHAPE, super::tree::colours),
            Self::Bars => (super::bars::SHAPE, super::bars::colours),
        };
        let [light, dark] =
            [&LIGHT, &DARK].map(|scheme| within(class, &format!("{}{}", base(scheme), colours(scheme))));
        format!(
            "svg.{class}{{color-scheme:light dark}}\n{}{light}@media screen and (prefers-color-scheme:dark){{\n{dark}}}\n",
            within(class, &format!("{LETTERS}{shape}"))
        )
    }
}

/// Letters of all pictures.
const LETTERS: &str = "text{font-family:sans-serif;font-size:11px}\n.heading{font-size:17px;font-weight:bold}\n";

fn base(scheme: &Scheme) -> String {
    let Scheme { ground, ink, faint, .. } = scheme;
    format!(".ground{{fill:{ground}}}\ntext{{fill:{ink}}}\n.note{{fill:{faint}}}\n")
}

/// Rules, one a line, that hold within one kind of picture only.
fn within(class: &str, rules: &str) -> String {
    let line = |rule: &str| {
        let (selectors, rest) = rule.split_once('{').unwrap_or((rule, "}"));
        let selectors =
            selectors.split(',').map(|selector| format!(".{class} {selector}")).collect::<Vec<_>>().join(",");
        format!("{selectors}{{{rest}\n")
    };
    rules.lines().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_stay_within_their_picture() {
        assert_eq!(within("map", "a,.b{x:1}\n.c{y:2}\n"), ".map a,.map .b{x:1}\n.map .c{y:2}\n");
    }
}
