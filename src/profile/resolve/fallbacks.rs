//! The shop's rules.

use super::{Checker, quoted};
use crate::diag::{Code, Diagnostic, SourceId, nearest};
use crate::profile::raw::{FallbackFile, RawEdge};
use crate::profile::yaml;
use crate::profile::{Edge, Place, Reason, SizeHint};
use crate::unit::Id;

/// A rule with the places of the two models that it names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacedEdge {
    /// The rule.
    pub edge: Edge,
    /// Where the failing model is named.
    pub from: Place,
    /// Where the next model is named.
    pub to: Place,
    /// Where the size hint stands, when it is a label.
    pub size: Place,
}

/// A few hundred models with ten rules each.
const MOST_EDGES: usize = 5000;

/// Reads the shop's rules in the order of the file.
pub fn fallbacks(source: SourceId, text: &str) -> Result<Vec<PlacedEdge>, Vec<Diagnostic>> {
    let (mut file, places) = yaml::read::<FallbackFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
    check.bounded("edges", &mut file.edges, MOST_EDGES, "rules");
    let mut edges = Vec::new();
    for (at, raw) in file.edges.into_iter().enumerate() {
        edges.extend(edge(&mut check, &format!("edges[{at}]"), raw));
    }
    check.finish(edges)
}

fn edge(check: &mut Checker<'_>, path: &str, raw: RawEdge) -> Option<PlacedEdge> {
    let [from_path, to_path, size_path] = ["from", "to", "size"].map(|key| format!("{path}.{key}"));
    let from = check.id(&from_path, raw.from);
    let to = check.id(&to_path, raw.to);
    let note = check.text(&format!("{path}.note"), raw.note);
    let reason = reason(check, &format!("{path}.reason"), &raw.reason);
    let size = raw.size.map(|text| hint(check, &size_path, text));
    let [from_place, to_place, size_place] = [from_path, to_path, size_path].map(|path| check.place(path));
    let edge = Edge { from, reason: reason?, to, note, size };
    Some(PlacedEdge { edge, from: from_place, to: to_place, size: size_place })
}

fn reason(check: &mut Checker<'_>, path: &str, text: &str) -> Option<Reason> {
    let reason = Reason::from_id(text);
    if reason.is_none() {
        let help = match nearest(text, Reason::ALL.map(Reason::id)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the reasons are {}", Reason::ALL.map(Reason::id).join(", ")),
        };
        let message = format!("`{}` is no reason that this program knows", quoted(text));
        check.note(path, |span| {
            Diagnostic::error(Code("unknown-reason"), message).at(span, "unknown reason").help(help)
        });
    }
    reason
}

fn hint(check: &mut Checker<'_>, path: &str, text: String) -> SizeHint {
    match text.as_str() {
        "same" => SizeHint::Same,
        "up" => SizeHint::Up,
        "down" => SizeHint::Down,
        _ => SizeHint::Label(Id::clone(&check.id(path, text))),
    }
}
