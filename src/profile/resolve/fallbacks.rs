//! The shop's rules.

use super::{Checker, Read, resolve};
use crate::diag::{Code, Diagnostic, SourceId, nearest};
use crate::profile::raw::{FallbackFile, RawEdge};
use crate::profile::yaml;
use crate::profile::{Edge, Placed, Reason, SizeHint};
use crate::unit::Id;

/// Reads the shop's rules in the order of the file; a rule with an unknown reason is left out.
pub fn fallbacks(source: SourceId, text: &str) -> Read<Vec<Placed<Edge>>> {
    let document = yaml::read::<FallbackFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(edges(check, file)))
}

fn edges(check: &mut Checker<'_>, file: FallbackFile) -> Vec<Placed<Edge>> {
    let mut edges = Vec::new();
    for (at, raw) in file.edges.into_iter().enumerate() {
        let path = format!("edges[{at}]");
        edges.extend(edge(check, &path, raw).map(|edge| check.placed(edge, path)));
    }
    edges
}

fn edge(check: &mut Checker<'_>, path: &str, raw: RawEdge) -> Option<Edge> {
    let from = check.id(&format!("{path}.from"), raw.from);
    let to = check.id(&format!("{path}.to"), raw.to);
    let note = check.text(&format!("{path}.note"), raw.note);
    let reason = reason(check, &format!("{path}.reason"), &raw.reason);
    let size = raw.size.map(|text| hint(check, &format!("{path}.size"), text));
    Some(Edge { from, reason: reason?, to, note, size })
}

fn reason(check: &mut Checker<'_>, path: &str, text: &str) -> Option<Reason> {
    let reason = Reason::from_id(text);
    if reason.is_none() {
        let help = match nearest(text, Reason::ALL.map(Reason::id)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the reasons are {}", Reason::ALL.map(Reason::id).join(", ")),
        };
        let message = format!("`{}` is no reason that this program knows", text.escape_debug());
        let problem =
            Diagnostic::error(Code("unknown-reason"), message).at(check.span(path), "unknown reason").help(help);
        check.problems.push(problem);
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
