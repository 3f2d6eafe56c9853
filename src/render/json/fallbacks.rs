//! The shop's graph, or a part of it, as a document: `lidladder.fallbacks/1`.

use crate::fallback::{Circle, Excerpt, Onward, Question};
use crate::profile::{Edge, Model};
use crate::unit::Id;
use schemars::JsonSchema;
use serde::Serialize;

/// The shop's graph, or the part of it that was asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Rules shown by lidladder", extend("$id" = "urn:lidladder:fallbacks:1"))]
pub struct FallbacksDocument {
    /// `lidladder.fallbacks/1`.
    #[schemars(extend("const" = "lidladder.fallbacks/1"))]
    schema: String,
    /// The model that was asked for.
    from: Option<String>,
    /// The reasons that were asked for: one after the other where there is a `from`, any of them otherwise.
    r#if: Vec<String>,
    models: Vec<ModelBody>,
    /// In the order of the file.
    rules: Vec<RuleBody>,
    /// From `from` by the reasons of `if`, one after the other; null without both.
    ways: Option<Vec<WayBody>>,
    /// Models that lead to each other by these rules.
    circles: Vec<CircleBody>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ModelBody {
    id: String,
    name: String,
    family: String,
    /// full-face, flip-front, open-face, adventure or off-road.
    r#type: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RuleBody {
    /// Its place among the rules of the file, from 1.
    number: usize,
    /// The model that failed.
    from: String,
    /// Why it failed.
    reason: String,
    /// geometric: follows from measures and pads; experience: only the shop speaks; stop: the model in this size is out.
    nature: String,
    /// The model to try next.
    to: String,
    /// same, up, down or a label, as in the file; null where the shop doesn't say.
    size: Option<String>,
    note: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WayBody {
    /// Numbers of the rules, one after the other; none where the first reason has no rule.
    rules: Vec<usize>,
    /// arrived: every reason was followed; silent: the shop has no rule for the next one; left-out: there are too many
    /// ways to follow them all.
    end: String,
    /// The reason that the shop is silent for.
    silent_for: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CircleBody {
    models: Vec<String>,
    /// Numbers of the rules of a shortest way round from the first model.
    round_trip: Vec<usize>,
}

/// The document of an excerpt.
#[must_use]
pub fn fallbacks(excerpt: &Excerpt<'_>, cautions: &[&str]) -> FallbacksDocument {
    let (from, reasons) = match &excerpt.question {
        Question::All => (None, &[][..]),
        Question::About(model) => (Some(model.to_string()), &[][..]),
        Question::For(reasons) => (None, reasons.as_slice()),
        Question::Ways(model, reasons) => (Some(model.to_string()), reasons.as_slice()),
    };
    let ways = excerpt.ways.as_ref().map(|onward| {
        let mut ways = Vec::new();
        gather(onward, &mut Vec::new(), &mut ways);
        ways
    });
    FallbacksDocument {
        schema: "lidladder.fallbacks/1".to_owned(),
        from,
        r#if: reasons.iter().map(|reason| reason.id().to_owned()).collect(),
        models: excerpt.models.iter().map(|model| ModelBody::of(model)).collect(),
        rules: excerpt.rules.iter().map(|(place, edge)| RuleBody::of(*place, edge)).collect(),
        ways,
        circles: excerpt.circles.iter().map(CircleBody::of).collect(),
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

/// All ways that begin with these rules.
fn gather(onward: &Onward, rules: &mut Vec<usize>, ways: &mut Vec<WayBody>) {
    let (end, silent_for) = match onward {
        Onward::Arrived => ("arrived", None),
        Onward::Silent(reason) => ("silent", Some(reason.id().to_owned())),
        Onward::LeftOut => ("left-out", None),
        Onward::Steps(steps) => {
            for step in steps {
                rules.push(step.rule + 1);
                gather(&step.then, rules, ways);
                rules.pop();
            }
            return;
        }
    };
    ways.push(WayBody { rules: rules.clone(), end: end.to_owned(), silent_for });
}

impl ModelBody {
    fn of(model: &Model) -> Self {
        Self {
            id: model.id.to_string(),
            name: model.name.clone(),
            family: model.family.clone(),
            r#type: model.kind.name().to_owned(),
        }
    }
}

impl RuleBody {
    fn of(place: usize, edge: &Edge) -> Self {
        Self {
            number: place + 1,
            from: edge.from.to_string(),
            reason: edge.reason.id().to_owned(),
            nature: edge.reason.nature().name().to_owned(),
            to: edge.to.to_string(),
            size: edge.size.as_ref().map(|size| size.as_written().to_owned()),
            note: edge.note.clone(),
        }
    }
}

impl CircleBody {
    fn of(circle: &Circle<'_>) -> Self {
        Self {
            models: circle.models.iter().map(|id: &&Id| id.to_string()).collect(),
            round_trip: circle.rules.iter().map(|place| place + 1).collect(),
        }
    }
}
