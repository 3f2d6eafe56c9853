//! The shop's rules.

use super::{Checker, Read, quoted, resolve};
use crate::diag::{Code, Diagnostic, SourceId, nearest};
use crate::profile::raw::{FallbackFile, RawEdge};
use crate::profile::yaml;
use crate::profile::{Edge, Placed, Reason, SizeHint};
use crate::unit::Id;

/// What a file of rules says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rules {
    /// The rules in the order of the file.
    pub edges: Vec<Placed<Edge>>,
    /// Those with an unknown reason.
    pub unclear: Vec<Unclear>,
}

/// A rule with an unknown reason.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unclear {
    /// The model that failed.
    pub from: Id,
    /// The reason that is most likely meant.
    pub meant: Option<Reason>,
}

/// Reads the shop's rules.
pub fn fallbacks(source: SourceId, text: &str) -> Read<Rules> {
    let document = yaml::read::<FallbackFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(rules(check, file)))
}

/// A few hundred models with ten rules each.
const MOST_EDGES: usize = 5000;

fn rules(check: &mut Checker<'_>, mut file: FallbackFile) -> Rules {
    check.bounded("edges", &mut file.edges, MOST_EDGES, "rules");
    let mut rules = Rules::default();
    for (at, raw) in file.edges.into_iter().enumerate() {
        let path = format!("edges[{at}]");
        let typed = raw.reason.clone();
        match edge(check, &path, raw) {
            Ok(edge) => rules.edges.push(check.placed(edge, path)),
            Err(from) => rules.unclear.push(Unclear { from, meant: meant(&typed).and_then(Reason::from_id) }),
        }
    }
    rules
}

/// The rule, or the model that failed where its reason is unknown.
fn edge(check: &mut Checker<'_>, path: &str, raw: RawEdge) -> Result<Edge, Id> {
    let from = check.id(&format!("{path}.from"), raw.from);
    let to = check.id(&format!("{path}.to"), raw.to);
    let note = check.text(&format!("{path}.note"), raw.note);
    let size = raw.size.map(|text| hint(check, &format!("{path}.size"), text));
    match reason(check, &format!("{path}.reason"), &raw.reason) {
        Some(reason) => Ok(Edge { from, reason, to, note, size }),
        None => Err(from),
    }
}

fn meant(text: &str) -> Option<&'static str> {
    nearest(text, Reason::ALL.map(Reason::id))
}

fn reason(check: &mut Checker<'_>, path: &str, text: &str) -> Option<Reason> {
    let reason = Reason::from_id(text);
    if reason.is_none() {
        let help = match meant(text) {
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
