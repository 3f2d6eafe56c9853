//! What was learned from journals, as a document: `lidladder.learn/1`.

use super::Warning;
use super::common::round;
use crate::head::Measure;
use crate::learn::{Belief, Difference, KeptApart, Learned, LearnedModel, Question, Score, Scores, Verdict};
use crate::profile::{Measurer, Tool};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What was learned.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "What lidladder learned from journals", extend("$id" = "urn:lidladder:learn:1"))]
pub struct LearnDocument {
    /// `lidladder.learn/1`.
    #[schemars(extend("const" = "lidladder.learn/1"))]
    schema: String,
    seed: u64,
    warnings: Vec<Warning>,
    customers: usize,
    tries: usize,
    /// some, or latest: which customers were kept apart.
    kept_apart: String,
    /// How well their tries are foretold; null where there are none.
    scores: Option<ScoresBody>,
    /// Every model of the profiles.
    models: Vec<ModelBody>,
    /// How often a reason is misreported, 0 to 1.
    misreport: Figure,
    /// Failures that tell of it.
    failures: usize,
    /// The ways to measure, as shop.yaml lists them.
    measuring: Vec<MethodBody>,
    population: PopulationBody,
    cautions: Vec<String>,
}

/// A figure before and now.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Figure {
    before: BeliefBody,
    now: BeliefBody,
    /// change, silent, too-few, vague, confirmed, worse or measured.
    verdict: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BeliefBody {
    mean: f64,
    /// Standard deviation.
    sd: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ModelBody {
    model: String,
    tries: usize,
    shape_index: Figure,
    shells: Vec<ShellBody>,
    /// About how many more tries would narrow the index enough; null where they have, and where too few are there to say.
    more_tries: Option<usize>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ShellBody {
    shell: String,
    tries: usize,
    /// How much larger than labelled its sizes are, mm of circumference.
    centre_mm: Figure,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MethodBody {
    /// staff or customer.
    by: String,
    /// tape, caliper, ruler or phone.
    with: String,
    readings: usize,
    /// Standard deviation of a reading.
    sd_mm: Figure,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PopulationBody {
    /// The population that it begins with.
    from: String,
    /// Heads of which anything was measured.
    heads: usize,
    /// How far the means are from that population's, mm, by measure.
    shift_mm: BTreeMap<String, BeliefBody>,
    /// Factor on its standard deviations.
    spread: BeliefBody,
    verdict: String,
    /// The id that the shop's own population would have; null where the numbers would be none of people.
    own: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoresBody {
    customers: usize,
    tries: usize,
    /// Tries that ended with a fit.
    fits: usize,
    /// By the profiles as they are.
    before: ScoreBody,
    /// By what was learned from the other customers.
    after: ScoreBody,
    /// The Brier score before minus after: more than 0 is better.
    brier_better_by: DifferenceBody,
    /// The same for the log score.
    log_better_by: DifferenceBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoreBody {
    brier: f64,
    /// Nats.
    log: f64,
    /// What was said against what happened.
    reliability: Vec<RowBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RowBody {
    from: f64,
    to: f64,
    tries: usize,
    said: f64,
    fitted: f64,
    /// The interval of 95 % for the share that fits (Wilson).
    interval: [f64; 2],
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DifferenceBody {
    mean: f64,
    /// One standard error; the tries of one customer count as one draw.
    standard_error: f64,
}

/// The document of what was learned.
#[must_use]
pub fn learn(
    question: &Question<'_>,
    learned: &Learned,
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> LearnDocument {
    LearnDocument {
        schema: "lidladder.learn/1".to_owned(),
        seed: question.seed,
        warnings,
        customers: learned.customers,
        tries: learned.tries,
        kept_apart: match question.kept_apart {
            KeptApart::Some => "some",
            KeptApart::Latest => "latest",
        }
        .to_owned(),
        scores: learned.scores.as_ref().map(scores),
        models: learned.models.iter().map(model).collect(),
        misreport: figure(learned.misreport, learned.misreport_verdict, 4),
        failures: learned.failures,
        measuring: measuring(learned),
        population: population(learned),
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn model(model: &LearnedModel) -> ModelBody {
    let shells = model.shells.iter().map(|shell| ShellBody {
        shell: shell.id.to_string(),
        tries: shell.tries,
        centre_mm: figure(shell.centre, shell.verdict, 2),
    });
    ModelBody {
        model: model.id.to_string(),
        tries: model.tries,
        shape_index: figure(model.index, model.verdict, 2),
        shells: shells.collect(),
        more_tries: model.more_tries,
    }
}

fn measuring(learned: &Learned) -> Vec<MethodBody> {
    let method = |method: &crate::learn::LearnedMethod| MethodBody {
        by: match method.by {
            Measurer::Staff => "staff",
            Measurer::Customer => "customer",
        }
        .to_owned(),
        with: match method.with {
            Tool::Tape => "tape",
            Tool::Caliper => "caliper",
            Tool::Ruler => "ruler",
            Tool::Phone => "phone",
        }
        .to_owned(),
        readings: method.readings,
        sd_mm: figure(method.sd, method.verdict, 2),
    };
    learned.measuring.iter().map(method).collect()
}

fn population(learned: &Learned) -> PopulationBody {
    let known = &learned.population;
    let shift = Measure::ALL.map(|measure| {
        let [_, now] = known.shift[measure.index()];
        (measure.name().replace(' ', "_"), belief(now, 2))
    });
    PopulationBody {
        from: known.from.to_string(),
        heads: known.heads,
        shift_mm: shift.into_iter().collect(),
        spread: belief(known.spread[1], 3),
        verdict: word(known.verdict),
        own: known.own.as_ref().map(|own| own.id.to_string()),
    }
}

fn scores(scores: &Scores) -> ScoresBody {
    ScoresBody {
        customers: scores.customers,
        tries: scores.tries,
        fits: scores.fits,
        before: score(&scores.before),
        after: score(&scores.after),
        brier_better_by: difference(scores.brier),
        log_better_by: difference(scores.log),
    }
}

fn score(score: &Score) -> ScoreBody {
    let rows = score.reliability.iter().map(|row| RowBody {
        from: round(row.from, 2),
        to: round(row.to, 2),
        tries: row.count,
        said: round(row.said, 3),
        fitted: round(row.happened(), 3),
        interval: [round(row.interval.0, 3), round(row.interval.1, 3)],
    });
    ScoreBody { brier: round(score.brier, 4), log: round(score.log, 4), reliability: rows.collect() }
}

fn difference(difference: Difference) -> DifferenceBody {
    DifferenceBody { mean: round(difference.mean, 4), standard_error: round(difference.error, 4) }
}

fn figure([before, now]: [Belief; 2], verdict: Verdict, digits: i32) -> Figure {
    Figure { before: belief(before, digits), now: belief(now, digits), verdict: word(verdict) }
}

fn belief(belief: Belief, digits: i32) -> BeliefBody {
    BeliefBody { mean: round(belief.mean, digits), sd: round(belief.sd, digits) }
}

fn word(verdict: Verdict) -> String {
    match verdict {
        Verdict::Change => "change",
        Verdict::Silent => "silent",
        Verdict::TooFew => "too-few",
        Verdict::Vague => "vague",
        Verdict::Confirmed => "confirmed",
        Verdict::Worse => "worse",
        Verdict::Measured => "measured",
    }
    .to_owned()
}
